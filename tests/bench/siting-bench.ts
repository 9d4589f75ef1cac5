import type { Feeder } from '#domain/feeder/feeder.ts'
import { siteFeeder } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { inWords, medianMs, printTable } from './measure.ts'

/** A search that would take longer is stopped, and its whole time is told from its pace. */
const PATIENCE_MS = 20_000

export interface SitingTask {
  readonly feeder: Feeder
  readonly banks: 1 | 2
}

/** What working the settings out adds to a study of one bank. */
export function benchSettings(feeders: readonly Feeder[]): void {
  const rows = [['feeder', 'plain settings', 'worked-out settings', 'ratio']]
  for (const feeder of feeders) {
    const timeOf = (compensation: SiteRequest['compensation']) =>
      medianMs(() => siteFeeder(feeder, SiteRequest.parse({ compensation })))
    const [plainMs, workedMs] = [timeOf('none'), timeOf('worked out')]
    const ratio = (workedMs / plainMs).toFixed(2)
    rows.push([feeder.header.id, inWords(plainMs), inWords(workedMs), ratio])
  }
  printTable('Siting with settings worked out against plain ones (one bank)', rows)
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
