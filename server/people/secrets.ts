import { createHash, createHmac, randomBytes } from 'node:crypto'

/** Told apart at sight, also by programs that look for secrets where none should be. */
export const TOKEN_PREFIX = 'crossarm_'

/** 256 random bits. */
export function newSecret(): string {
  return randomBytes(32).toString('base64url')
}

/** Enough for a secret that nobody can guess; passwords are hashed slowly, elsewhere. */
export function hashOfSecret(secret: string): string {
  return createHash('sha256').update(secret).digest('hex')
}

/** The same for the same text, and without the key not to be told from another. */
export function keyedHash(key: string, text: string): string {
  return createHmac('sha256', key).update(text).digest('base64url')
}
