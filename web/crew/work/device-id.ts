const BYTES = 12

/**
 * An id for what is entered on the device, unlike any other: 96 random bits in hexadecimal digits.
 * Also there where the page does not come over https, unlike `crypto.randomUUID`.
 */
export function deviceId(prefix: string): string {
  const bytes = crypto.getRandomValues(new Uint8Array(BYTES))
  const digits = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')
  return `${prefix}-${digits}`
}
