import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

type StudyRoutes = 'startStudy' | 'getStudy' | 'followStudy' | 'cancelStudy'

export function studyHandlers({ studies }: Services): Pick<Handlers, StudyRoutes> {
  return {
    startStudy: async ({ params, body }, actor) => {
      const { id } = await studies.start(actor, params.feederId, body.request)
      return { studyId: id }
    },
    getStudy: ({ params }, actor) => studies.get(actor, params.studyId),
    followStudy: ({ params }, actor) => studies.follow(actor, params.studyId),
    cancelStudy: ({ params }, actor) => studies.cancel(actor, params.studyId),
  }
}
