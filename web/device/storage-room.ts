import { shareValue } from './shared-value.ts'

export interface StorageRoom {
  readonly usedBytes: number
  /** As the browser lets the page know; null where it does not. */
  readonly freeBytes: number | null
  /** The browser promised not to clear it by itself. */
  readonly isPersistent: boolean
}

/** Room for this page on the device; null where the browser does not tell. */
export const storageRoom = shareValue<StorageRoom | null>(null)

/** Less than this and a day's photos may not fit; of our own choosing. */
export const LOW_ROOM_BYTES = 100 * 1024 * 1024

export async function measureRoom(): Promise<StorageRoom | null> {
  const storage = globalThis.navigator?.storage
  if (!storage?.estimate) return null
  const { usage = 0, quota } = await storage.estimate()
  const room: StorageRoom = {
    usedBytes: usage,
    freeBytes: quota === undefined ? null : Math.max(0, quota - usage),
    isPersistent: (await storage.persisted?.()) ?? false,
  }
  storageRoom.set(room)
  return room
}

/** Asks the browser not to clear what is kept; it may ask the person, or decide by itself. */
export async function askToStay(): Promise<void> {
  await globalThis.navigator?.storage?.persist?.()
}
