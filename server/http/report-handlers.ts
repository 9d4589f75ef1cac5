import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'
import { HISTORY_FILES } from './history-handlers.ts'

type ReportRoutes = 'startHistoryReport' | 'cancelHistoryReport' | 'getReportFile'

export function reportHandlers({ reports, longWork }: Services): Pick<Handlers, ReportRoutes> {
  return {
    startHistoryReport: async ({ body }, actor) => {
      const { id } = await reports.start(actor, body)
      return { workId: id }
    },
    cancelHistoryReport: ({ params }, actor) =>
      longWork.cancel(actor, params.workId, 'history-report'),
    getReportFile: async ({ params }) => {
      const { isCsv, ...file } = await reports.open(params.workId)
      return { ...file, mediaType: HISTORY_FILES[isCsv ? 'csv' : 'json-lines'].mediaType }
    },
  }
}
