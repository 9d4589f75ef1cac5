import { HistoryReportRequest } from '#contract/reports.ts'
import type { WorkSummary } from '#contract/work.ts'
import type { WorkItem } from './work-ports.ts'

/** An item as lists show it: what it is about, but not its result. */
export function summaryOf(item: WorkItem): WorkSummary {
  const { attempt: _attempt, feederVersion: _version, result: _result, payload, ...rest } = item
  const { feederIds, feederName } = payload as { feederIds?: string[]; feederName?: string | null }
  return {
    ...rest,
    feeders: feederIds?.length ?? null,
    feederName: feederName ?? null,
    report: item.kind === 'history-report' ? HistoryReportRequest.parse(payload) : null,
  }
}
