import type { Feeder } from '#domain/feeder/feeder.ts'
import { siteFeeder } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { inWords, printTable } from './measure.ts'

/** A search that would take longer is stopped, and its whole time is told from its pace. */
const PATIENCE_MS = 20_000

export interface SitingTask {
  readonly feeder: Feeder
  readonly banks: 1 | 2
}

export function benchSiting(tasks: readonly SitingTask[]): void {
  const rows = [['feeder', 'poles', 'cases', 'banks', 'placements tried', 'time', 'per placement']]
  for (const { feeder, banks } of tasks) {
    const request = SiteRequest.parse({ banks })
    const start = performance.now()
    let last = { done: 0, total: 0, phase: '' }
    const outcome = siteFeeder(feeder, request, {
      onProgress: (done, total, phase) => {
        last = { done, total, phase }
      },
      isCancelled: () => performance.now() - start > PATIENCE_MS,
    })
    const ms = performance.now() - start
    const tried = outcome.status === 'done' ? outcome.result.tried : null
    rows.push([
      feeder.header.id,
      String(feeder.poles.length),
      String(feeder.header.cases.length),
      String(banks),
      tried === null ? `${last.done} of ${last.total} (${last.phase})` : String(tried),
      outcome.status === 'done' ? inWords(ms) : `${outcome.status} after ${inWords(ms)}`,
      inWords(ms / Math.max(1, tried ?? last.done)),
    ])
  }
  printTable(`Siting (default request; stopped after ${inWords(PATIENCE_MS)})`, rows)
}
