import { availableParallelism } from 'node:os'
import { MessageChannel } from 'node:worker_threads'
import { Piscina } from 'piscina'
import type { Progress, Threads, WorkFollow } from '../services/work-ports.ts'
import type { JobTask } from './job-worker.ts'
import type { ReadingJob, SitingJob } from './long-worker.ts'
import type { SolvingJob } from './solve-worker.ts'
import type { Leash } from './thread-job.ts'

/** A job that has not left off by then, because one solve takes that long, is ended from outside. */
const CANCEL_GRACE_MS = 1000

const IDLE_TIMEOUT_MS = 30_000

/** One processor is left to the server itself, so that it still answers. */
export const THREADS = Math.max(1, availableParallelism() - 1)

export interface OpenThreads extends Threads {
  close(): Promise<void>
}

/**
 * Worker threads, one job to a thread; more jobs than threads wait. Short jobs, which somebody waits
 * for, have threads of their own, so that they never stand behind long ones.
 *
 * @param workerFile address of either program of a thread, as TypeScript while developing and
 * JavaScript once built
 */
export function openThreads(
  workerFile: (name: 'long-worker' | 'solve-worker' | 'job-worker') => URL,
  threads = THREADS,
): OpenThreads {
  const long = openPool(workerFile('long-worker'), threads)
  const short = openPool(workerFile('solve-worker'), threads)
  const jobs = openPool(workerFile('job-worker'), threads)
  return {
    site: (feeder, request, follow) =>
      runLong<SitingJob>(long, { kind: 'site', feeder, request }, follow),
    readLayers: (text, follow) => runLong<ReadingJob>(long, { kind: 'read', text }, follow),
    solve: (feeder, options) => {
      const job: SolvingJob = { feeder, options }
      return short.run(job)
    },
    draft: (input) => jobs.run({ kind: 'draft', input } satisfies JobTask),
    build: (input) => jobs.run({ kind: 'build', input } satisfies JobTask),
    close: async () => {
      await Promise.all([long.destroy(), short.destroy(), jobs.destroy()])
    },
  }
}

function openPool(workerFile: URL, threads: number): Piscina {
  return new Piscina({
    filename: workerFile.href,
    minThreads: 0,
    maxThreads: threads,
    concurrentTasksPerWorker: 1,
    idleTimeout: IDLE_TIMEOUT_MS,
    execArgv: workerFile.pathname.endsWith('.ts') ? ['--import', 'tsx'] : [],
  })
}

/** Rejects where the machinery broke, as when a thread died, and where the job was ended from outside. */
async function runLong<Job extends Leash>(
  pool: Piscina,
  job: Omit<Job, keyof Leash>,
  { tell, signal }: WorkFollow,
) {
  const { port1: near, port2: far } = new MessageChannel()
  const cancelFlag = new SharedArrayBuffer(4)
  const end = new AbortController()
  let isStarted = false
  let force: NodeJS.Timeout | undefined
  near.on('message', ({ done, total, phase }: Progress) => {
    isStarted = true
    tell(done, total, phase)
  })
  // A job in the queue is dropped at once; a running one is asked first.
  const leaveOff = () => {
    Atomics.store(new Int32Array(cancelFlag), 0, 1)
    if (isStarted) force = setTimeout(() => end.abort(), CANCEL_GRACE_MS)
    else end.abort()
  }
  signal.addEventListener('abort', leaveOff, { once: true })
  if (signal.aborted) leaveOff()
  try {
    const task = { ...job, progress: far, cancelFlag }
    return await pool.run(task, { transferList: [far], signal: end.signal })
  } finally {
    clearTimeout(force)
    signal.removeEventListener('abort', leaveOff)
    near.close()
  }
}
