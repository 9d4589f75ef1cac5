import { HistoryReportRequest, type HistoryReportResult, REPORT_DAYS } from '#contract/reports.ts'
import { historyAsText } from './history-as-text.ts'
import type { HistoryEntry, HistoryFilter, HistoryStore } from './ports.ts'
import type { ReportFiles } from './report-ports.ts'
import type { RunWork } from './work-ports.ts'

interface ReportWorkPorts {
  readonly store: {
    readonly history: Pick<HistoryStore, 'all' | 'count'>
    readonly reports: ReportFiles
  }
}

const TOLD_EVERY = 500
const DAY_MS = 24 * 3_600_000

/** Writes the history to a file, which is found once the work has ended as done. */
export function runHistoryReport({ store }: ReportWorkPorts): RunWork {
  return async ({ id, payload }, { tell, signal }) => {
    const request = HistoryReportRequest.parse(payload)
    const filter = filterOf(request)
    const total = await store.history.count(filter)
    let entries = 0
    const onEntry = () => {
      entries++
      if (entries % TOLD_EVERY === 0) tell(entries, total, 'Entries written')
      signal.throwIfAborted()
    }
    tell(0, total, 'Entries written')
    const text = historyAsText(counted(store.history.all(filter), onEntry), request.as)
    const { sizeBytes, sha256, place, discard } = await store.reports.write(
      id,
      text,
      REPORT_DAYS * DAY_MS,
    )
    if (signal.aborted) {
      await discard()
      return { state: 'cancelled' }
    }
    tell(entries, total, 'Entries written')
    const keep = async (): Promise<HistoryReportResult> => {
      await place()
      return { fileName: fileNameOf(request), entries, sizeBytes, sha256 }
    }
    return { state: 'done', keep }
  }
}

async function* counted(
  entries: AsyncIterable<HistoryEntry>,
  onEntry: () => void,
): AsyncGenerator<HistoryEntry> {
  for await (const entry of entries) {
    onEntry()
    yield entry
  }
}

/** Days are counted whole, from midnight to midnight UTC. */
function filterOf({ feederId, from, to }: HistoryReportRequest): HistoryFilter {
  return {
    ...(feederId !== undefined && { feederId }),
    ...(from !== undefined && { from: new Date(from).toISOString() }),
    ...(to !== undefined && { before: new Date(Date.parse(to) + DAY_MS).toISOString() }),
  }
}

function fileNameOf({ as, feederId, from, to }: HistoryReportRequest): string {
  const period = from === undefined && to === undefined ? [] : [from ?? 'start', to ?? 'now']
  const name = ['history', feederId ?? 'all', ...period].join('-')
  return `${name}.${as === 'csv' ? 'csv' : 'jsonl'}`
}
