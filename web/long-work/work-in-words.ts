import type { HistoryReportRequest } from '#contract/reports.ts'
import type { WorkSummary } from '#contract/work.ts'
import { counted, thousands } from '../state/format.ts'

type NameOf = (feederId: string) => string

/** What the work is: "Siting study of Windmill". */
export function workInWords(item: WorkSummary, nameOf: NameOf): string {
  const { kind, feederId, feeders, feederName, report } = item
  const of = feederId === null ? 'a feeder' : nameOf(feederId)
  switch (kind) {
    case 'siting':
      return `Siting study of ${of}`
    case 'siting-many':
      return `Siting studies of ${counted(feeders ?? 0, 'feeder')}`
    case 'take-in':
      return `Taking in ${feederName ?? 'a feeder'}`
    case 'history-report':
      return `Report of the history of ${feederId === null ? 'everything' : of}${periodOf(report)}`
  }
}

function periodOf(report: HistoryReportRequest | null): string {
  if (report === null) return ''
  const { as, from, to } = report
  const period = [from && `from ${from}`, to && `to ${to}`].filter(Boolean).join(' ')
  const form = as === 'csv' ? 'as a table' : 'as lines of JSON'
  return `${period && `, ${period}`}, ${form}`
}

/** How it stands: "Trying poles: 120 of 310". */
export function stateOfWork({ state, phase, done, total, problem }: WorkSummary): string {
  switch (state) {
    case 'queued':
      return 'Waiting for its turn.'
    case 'running':
      return total > 0 ? `${phase}: ${thousands(done)} of ${thousands(total)}` : `${phase}…`
    case 'done':
      return 'Done.'
    case 'cancelled':
      return 'Cancelled; nothing was kept of it.'
    case 'failed':
      return `Came to no result. ${problem?.detail ?? ''}`.trim()
  }
}
