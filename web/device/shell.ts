import { Workbox } from 'workbox-window'
import { shareValue } from './shared-value.ts'

/** Whether the pages themselves are on the device, so that they open without the server. */
export type ShellState = 'kept' | 'not kept' | 'not possible here'

export const shell = shareValue<ShellState>('not kept')
/** Loads the newer version of the pages that waits; null while none does. */
export const newVersion = shareValue<(() => void) | null>(null)

/** A page that stays open for days looks for a newer version about so often. */
const LOOK_AGAIN_MS = 3_600_000

const WORKER = '/service-worker.js'

/**
 * Has the pages kept on the device, where the browser allows it: over https or on the same
 * machine. A newer version waits until the person takes it, or all windows are closed.
 *
 * @param mapOrigin of the utility's own base map, null where there is none; the page that is kept
 * carries the policy that lets it in, so another one makes another version of the pages
 */
export async function keepShell(mapOrigin: string | null): Promise<void> {
  if (!isPossible()) return
  const query = mapOrigin === null ? '' : `?map=${encodeURIComponent(mapOrigin)}`
  const worker = new Workbox(WORKER + query)
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
  // Where it cannot be had now, an earlier one goes on serving.
  await worker.register().catch(() => undefined)
  await keepShellAsItIs()
  setInterval(() => void worker.update().catch(() => undefined), LOOK_AGAIN_MS)
}

/** Says whether the pages are on the device, and leaves them as they are. */
export async function keepShellAsItIs(): Promise<void> {
  if (!isPossible()) return
  const registration = await navigator.serviceWorker.getRegistration()
  if (registration?.active) shell.set('kept')
}

function isPossible(): boolean {
  if (import.meta.env.PROD && 'serviceWorker' in navigator) return true
  shell.set('not possible here')
  return false
}
