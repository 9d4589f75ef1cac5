import { shareValue } from './shared-value.ts'

/** What keeps the device from keeping things, in words; null while nothing does. */
export const deviceTrouble = shareValue<string | null>(null)

/** In plain words, why something could not be kept on the device. */
export function wordsOfTrouble(error: unknown): string {
  switch (error instanceof Error || error instanceof DOMException ? error.name : '') {
    case 'QuotaExceededError':
      return 'The device has no room left for this page. What is entered now is kept only as long as the page stays open: make room, or take something off the device.'
    case 'SecurityError':
    case 'InvalidStateError':
      return 'The browser lets this page keep nothing on the device, as in a private window. What is entered is kept only as long as the page stays open.'
    case 'VersionError':
      return 'A newer version of this page has been used on the device. Load the page anew.'
    default:
      return 'The device could not keep this. What is entered is kept only as long as the page stays open.'
  }
}

export function sayTrouble(error: unknown): void {
  deviceTrouble.set(wordsOfTrouble(error))
}

/** An answer of the server could not be kept for use without connection; nothing else is touched. */
export function sayNotKept(error: unknown): void {
  const why = isFull(error) ? 'The device has no room left for this page.' : wordsOfTrouble(error)
  deviceTrouble.set(
    `${why} The newest answers of the server are not kept for use without connection.`,
  )
}

export function isFull(error: unknown): boolean {
  return (
    (error instanceof Error || error instanceof DOMException) && error.name === 'QuotaExceededError'
  )
}
