import { randomBytes } from 'node:crypto'
import { link, readFile, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'

export const SECRET_FILE = 'session-secret'
const LEAST_CHARACTERS = 32

/**
 * What cookies are signed and second factors are encrypted with: the given one, or one that is made
 * once and kept in the data folder, for the owner's eyes only. Several servers of one database need
 * the same, so there it has to be given.
 *
 * @throws Error where the given one is too short
 */
export async function sessionSecret(
  dataFolder: string,
  given: string | undefined,
): Promise<string> {
  if (given !== undefined) return longEnough(given, 'CROSSARM_SECRET')
  const file = join(dataFolder, SECRET_FILE)
  return longEnough((await readKept(file)) ?? (await makeOnce(file)), file)
}

function longEnough(secret: string, where: string): string {
  if (secret.length >= LEAST_CHARACTERS) return secret
  throw new Error(`${where} must hold at least ${LEAST_CHARACTERS} characters.`)
}

async function readKept(file: string): Promise<string | null> {
  try {
    return (await readFile(file, 'utf8')).trim()
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw error
  }
}

/** Written whole beside its place, then put there unless another server was quicker. */
async function makeOnce(file: string): Promise<string> {
  const made = `${file}.${randomBytes(6).toString('hex')}`
  await writeFile(made, `${randomBytes(32).toString('base64url')}\n`, { mode: 0o600 })
  try {
    await link(made, file)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
  } finally {
    await rm(made, { force: true })
  }
  return (await readFile(file, 'utf8')).trim()
}
