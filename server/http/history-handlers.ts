import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'
import { textStream } from './text-stream.ts'

type HistoryRoutes = 'getHistory' | 'takeOutHistory' | 'listDeleted' | 'purge'

export const HISTORY_FILES = {
  csv: { mediaType: 'text/csv; charset=utf-8; header=present', fileName: 'crossarm-history.csv' },
  'json-lines': { mediaType: 'application/x-ndjson', fileName: 'crossarm-history.jsonl' },
} as const

export function historyHandlers({ history }: Services): Pick<Handlers, HistoryRoutes> {
  return {
    getHistory: async ({ params, query }, asker) => ({
      entries: await history.of(asker, params.subject, params.subjectId, query.feederId),
    }),
    takeOutHistory: async ({ query }, asker) => ({
      ...HISTORY_FILES[query.as],
      content: textStream(history.takeOut(asker, query)),
    }),
    listDeleted: ({ params }, asker) => history.listDeleted(asker, params.feederId),
    purge: async ({ body }, asker) => {
      await history.purge(asker, body)
      return { done: true }
    },
  }
}
