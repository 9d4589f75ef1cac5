import { type SiteOutcome, siteFeeder } from '#domain/siting/site-feeder.ts'
import type { SitingJob } from './siting-job.ts'

/** Steps are told at most this often; a person cannot follow more. */
const PROGRESS_EVERY_MS = 80

/** Runs in a worker thread: one siting job from its message to its outcome. */
export default function runSitingJob({
  feeder,
  request,
  progress,
  cancelFlag,
}: SitingJob): SiteOutcome {
  const flag = new Int32Array(cancelFlag)
  let told = { at: 0, phase: '' }
  const tell = (done: number, total: number, phase: string) => {
    const now = performance.now()
    if (phase === told.phase && done < total && now - told.at < PROGRESS_EVERY_MS) return
    told = { at: now, phase }
    progress.postMessage({ done, total, phase })
  }
  try {
    tell(0, 0, 'Reading the feeder')
    return siteFeeder(feeder, request, {
      onProgress: tell,
      isCancelled: () => Atomics.load(flag, 0) !== 0,
    })
  } finally {
    progress.close()
  }
}
