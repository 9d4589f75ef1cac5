import type { MessagePort } from 'node:worker_threads'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'

/** What travels to the worker thread. */
export interface SitingJob {
  readonly feeder: Feeder
  readonly request: SiteRequest
  /** Carries a `SitingStep` now and then. */
  readonly progress: MessagePort
  /** One 32-bit integer; anything but 0 asks the worker to leave off. */
  readonly cancelFlag: SharedArrayBuffer
}

export interface SitingStep {
  readonly done: number
  readonly total: number
  readonly phase: string
}
