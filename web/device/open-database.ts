import { type IDBPDatabase, openDB } from 'idb'
import { DEVICE_STEPS, type DeviceStep, type DeviceTables } from './device-tables.ts'
import { deviceTrouble } from './device-troubles.ts'

export const DATABASE_NAME = 'crossarm'

const BLOCKED =
  'Another window with an older version of this page is open and holds back the new one. Close the other windows.'
const OLD_WINDOW =
  'A newer version of this page was opened in another window. Load this one anew to keep things on the device.'

interface Told {
  /** The connection is gone and may be opened again. */
  readonly onClosed: () => void
  /** Another window holds an older version of the database; opening waits for it. */
  readonly onBlocked: () => void
}

/**
 * Opens the database of the device and brings its tables up to date, one step after the other.
 *
 * @throws DOMException where the browser has none, or one that this page is too old for
 */
export async function openDatabase(
  { onClosed, onBlocked }: Told,
  steps: readonly DeviceStep[] = DEVICE_STEPS,
): Promise<IDBPDatabase<DeviceTables>> {
  if (typeof indexedDB === 'undefined') {
    throw new DOMException('This browser has no database for pages.', 'SecurityError')
  }
  const database = await openDB<DeviceTables>(DATABASE_NAME, steps.length, {
    upgrade: (opened, oldVersion, _, change) => {
      for (const step of steps.slice(oldVersion)) step(opened, change as never)
    },
    blocked: () => {
      deviceTrouble.set(BLOCKED)
      onBlocked()
    },
    blocking: (_, __, { target }) => {
      deviceTrouble.set(OLD_WINDOW)
      ;(target as IDBDatabase).close()
      onClosed()
    },
    terminated: onClosed,
  })
  if (deviceTrouble.get() === BLOCKED) deviceTrouble.set(null)
  return database
}
