import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

type WorkRoutes =
  | 'startImport'
  | 'cancelImport'
  | 'cancelStudies'
  | 'listWork'
  | 'getWork'
  | 'followWork'

export function workHandlers({ longWork }: Services): Pick<Handlers, WorkRoutes> {
  return {
    startImport: async ({ body }, actor) => {
      const { id } = await longWork.startImport(actor, body)
      return { workId: id }
    },
    cancelImport: ({ params }, actor) => longWork.cancel(actor, params.workId, 'take-in'),
    cancelStudies: ({ params }, actor) => longWork.cancel(actor, params.workId, 'siting-many'),
    listWork: ({ query }) => longWork.list(query.partOf ?? null),
    getWork: ({ params }) => longWork.get(params.workId),
    followWork: ({ params }) => longWork.follow(params.workId),
  }
}
