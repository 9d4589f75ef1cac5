import type { MessagePort } from 'node:worker_threads'

/** What goes along with a long job to its thread. */
export interface Leash {
  /** Carries a `Progress` now and then. */
  readonly progress: MessagePort
  /** One 32-bit integer; anything but 0 asks the job to leave off. */
  readonly cancelFlag: SharedArrayBuffer
}
