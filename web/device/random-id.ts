/** 128 random bits in hexadecimal digits; `crypto.randomUUID` is there on https and loopback only. */
export function randomId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')
}
