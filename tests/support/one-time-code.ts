import { createHmac } from 'node:crypto'

const STEP_S = 30
/** RFC 4648, section 6. */
const BASE32 = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567'

/**
 * Code of an authenticator after RFC 6238 with its defaults: SHA-1, steps of 30 s.
 *
 * @param key in base32 (RFC 4648); blanks are passed over
 * @param atMs milliseconds since 1970
 */
export function oneTimeCode(key: string, atMs: number, digits = 6): string {
  const counter = Buffer.alloc(8)
  counter.writeBigUInt64BE(BigInt(Math.floor(atMs / 1000 / STEP_S)))
  const hash = createHmac('sha1', bytesOf(key)).update(counter).digest()
  // RFC 4226, section 5.3: the last four bits say where to read, the sign bit is left out.
  const offset = (hash.at(-1) ?? 0) & 0xf
  const truncated = hash.readUInt32BE(offset) & 0x7fff_ffff
  return String(truncated % 10 ** digits).padStart(digits, '0')
}

function bytesOf(key: string): Buffer {
  const bits = [...key.replaceAll(/[\s=]/g, '').toUpperCase()]
    .map((letter) => BASE32.indexOf(letter).toString(2).padStart(5, '0'))
    .join('')
  const bytes = bits.match(/.{8}/g) ?? []
  return Buffer.from(bytes.map((byte) => Number.parseInt(byte, 2)))
}
