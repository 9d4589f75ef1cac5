import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

type StudyRoutes =
  | 'startStudy'
  | 'startStudies'
  | 'listStudies'
  | 'getStudy'
  | 'followStudy'
  | 'cancelStudy'

export function studyHandlers({ studies }: Services): Pick<Handlers, StudyRoutes> {
  return {
    startStudy: async ({ params, body }, actor) => {
      const { id } = await studies.start(actor, params.feederId, body.request, body.studyId)
      return { studyId: id }
    },
    startStudies: ({ body }, actor) => studies.startMany(actor, body),
    listStudies: ({ params }) => studies.list(params.feederId),
    getStudy: ({ params }, asker) => studies.get(asker, params.studyId),
    followStudy: ({ params }, asker) => studies.follow(asker, params.studyId),
    cancelStudy: ({ params }, actor) => studies.cancel(actor, params.studyId),
  }
}
