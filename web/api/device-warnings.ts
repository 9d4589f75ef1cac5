import { LOW_ROOM_BYTES, type StorageRoom } from '../device/storage-room.ts'

/** More than this a clock does not drift by itself, and times of entries begin to mislead. */
const SKEW_WORTH_A_WORD_MS = 2 * 60_000

const BYTES_OF_A_MEGABYTE = 1_000_000

interface DeviceState {
  readonly trouble: string | null
  readonly clockSkewMs: number | null
  readonly storage: StorageRoom | null
}

/** What the person should know of the device, in plain words. */
export function warningsOf({ trouble, clockSkewMs, storage }: DeviceState): string[] {
  const freeBytes = storage?.freeBytes ?? null
  const lowRoom =
    freeBytes !== null && freeBytes < LOW_ROOM_BYTES
      ? `Only ${Math.round(freeBytes / BYTES_OF_A_MEGABYTE)} MB are left for this page on the device. Photos may not fit.`
      : null
  return [trouble, wordsOfSkew(clockSkewMs), lowRoom].filter((words) => words !== null)
}

function wordsOfSkew(skewMs: number | null): string | null {
  if (skewMs === null || Math.abs(skewMs) < SKEW_WORTH_A_WORD_MS) return null
  const way = skewMs > 0 ? 'ahead of' : 'behind'
  return `The clock of this device is about ${lengthInWords(Math.abs(skewMs))} ${way} the server’s. Entries carry the device’s time beside the server’s own; set the clock if you can.`
}

function lengthInWords(lengthMs: number): string {
  const minutes = Math.round(lengthMs / 60_000)
  if (minutes < 120) return `${minutes} minutes`
  const hours = Math.round(minutes / 60)
  return hours < 48 ? `${hours} hours` : `${Math.round(hours / 24)} days`
}
