import { Workbox } from 'workbox-window'
import { shareValue } from './shared-value.ts'

/** Whether the pages themselves are on the device, so that they open without the server. */
export type ShellState = 'kept' | 'not kept' | 'not possible here'

export const shell = shareValue<ShellState>('not kept')
/** Loads the newer version of the pages that waits; null while none does. */
export const newVersion = shareValue<(() => void) | null>(null)

/** A page that stays open for days looks for a newer version about so often. */
const LOOK_AGAIN_MS = 3_600_000

/**
 * Has the pages kept on the device, where the browser allows it: over https or on the same
 * machine. A newer version waits until the person takes it, or all windows are closed.
 */
export async function keepShell(): Promise<void> {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) {
    shell.set('not possible here')
    return
  }
  const worker = new Workbox('/service-worker.js')
  let isTaking = false
  worker.addEventListener('activated', () => shell.set('kept'))
  worker.addEventListener('waiting', () => {
    newVersion.set(() => {
      isTaking = true
      worker.messageSkipWaiting()
    })
  })
  worker.addEventListener('controlling', ({ isUpdate }) => {
    if (isTaking) window.location.reload()
    // Taken in another window: what is entered here is not thrown away by a reload of its own.
    else if (isUpdate) newVersion.set(() => window.location.reload())
  })
  try {
    const registration = await worker.register()
    if (registration?.active) shell.set('kept')
  } catch {
    shell.set('not kept')
    return
  }
  setInterval(() => void worker.update().catch(() => undefined), LOOK_AGAIN_MS)
}
