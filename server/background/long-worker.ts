import type { Feeder } from '#domain/feeder/feeder.ts'
import { type SiteOutcome, siteFeeder } from '#domain/siting/site-feeder.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import { feederOfLayers } from '../layer-files/feeder-folder.ts'
import type { LayerReading } from '../services/ports.ts'
import type { Leash } from './thread-job.ts'

/** Steps are told at most this often; a person cannot follow more. */
const PROGRESS_EVERY_MS = 80

export interface SitingJob extends Leash {
  readonly kind: 'site'
  readonly feeder: Feeder
  readonly request: SiteRequest
}

export interface ReadingJob extends Leash {
  readonly kind: 'read'
  /** JSON of the layers by name. */
  readonly text: string
}

/** Runs in a worker thread: one job from its message to its outcome. */
export default function runJob(job: SitingJob | ReadingJob) {
  return job.kind === 'site' ? site(job) : readLayers(job)
}

function site({ feeder, request, progress, cancelFlag }: SitingJob): SiteOutcome {
  const flag = new Int32Array(cancelFlag)
  const tell = teller(progress)
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

function readLayers({ text, progress }: ReadingJob): LayerReading {
  try {
    teller(progress)(0, 0, 'Checking the layers')
    return feederOfLayers(JSON.parse(text) as Record<string, unknown>)
  } finally {
    progress.close()
  }
}

function teller(port: Leash['progress']) {
  let told = { at: 0, phase: '' }
  return (done: number, total: number, phase: string) => {
    const now = performance.now()
    if (phase === told.phase && done < total && now - told.at < PROGRESS_EVERY_MS) return
    told = { at: now, phase }
    port.postMessage({ done, total, phase })
  }
}
