import { availableParallelism } from 'node:os'
import { MessageChannel } from 'node:worker_threads'
import { Piscina } from 'piscina'
import type { SiteOutcome } from '#domain/siting/site-feeder.ts'
import type { SitingRun, SitingRunner } from '../services/ports.ts'
import type { SitingJob, SitingStep } from './siting-job.ts'

/** A worker that has not left off by then, because one solve takes that long, is ended from outside. */
const CANCEL_GRACE_MS = 1000

const IDLE_TIMEOUT_MS = 30_000

export interface SitingPool extends SitingRunner {
  close(): Promise<void>
}

/**
 * Worker threads for siting, one job to a thread; more jobs than threads wait in a queue.
 * One processor is left to the server itself, so that it still answers.
 *
 * @param workerFile address of siting-worker, as TypeScript while developing and JavaScript once built
 */
export function openSitingPool(
  workerFile: URL,
  threads = Math.max(1, availableParallelism() - 1),
): SitingPool {
  const pool = new Piscina<SitingJob, SiteOutcome>({
    filename: workerFile.href,
    minThreads: 0,
    maxThreads: threads,
    concurrentTasksPerWorker: 1,
    idleTimeout: IDLE_TIMEOUT_MS,
    execArgv: workerFile.pathname.endsWith('.ts') ? ['--import', 'tsx'] : [],
  })
  return {
    run: (feeder, request, onProgress) => {
      const job = { feeder, request, cancelFlag: new SharedArrayBuffer(4) }
      return launch(pool, job, onProgress)
    },
    close: () => pool.destroy(),
  }
}

function launch(
  pool: Piscina<SitingJob, SiteOutcome>,
  job: Omit<SitingJob, 'progress'>,
  onProgress: (done: number, total: number, phase: string) => void,
): SitingRun {
  const { port1: near, port2: far } = new MessageChannel()
  const abort = new AbortController()
  let isStarted = false
  near.on('message', ({ done, total, phase }: SitingStep) => {
    isStarted = true
    onProgress(done, total, phase)
  })
  const outcome = pool
    .run({ ...job, progress: far }, { transferList: [far], signal: abort.signal })
    .catch((fault: unknown): SiteOutcome => {
      if (abort.signal.aborted) return { status: 'cancelled' }
      throw fault
    })
    .finally(() => near.close())
  return { outcome, cancel: () => leaveOff(job, abort, outcome, isStarted) }
}

/** A job in the queue is dropped at once; a running one is asked first. */
function leaveOff(
  job: Omit<SitingJob, 'progress'>,
  abort: AbortController,
  outcome: Promise<SiteOutcome>,
  isStarted: boolean,
): void {
  Atomics.store(new Int32Array(job.cancelFlag), 0, 1)
  if (!isStarted) {
    abort.abort()
    return
  }
  const force = setTimeout(() => abort.abort(), CANCEL_GRACE_MS)
  const settle = () => clearTimeout(force)
  void outcome.then(settle, settle)
}
