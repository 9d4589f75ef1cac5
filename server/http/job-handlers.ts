import type { jobRoutes } from '#contract/job-routes.ts'
import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

export function jobHandlers({
  jobs,
  stepSequences,
}: Services): Pick<Handlers, keyof typeof jobRoutes> {
  return {
    listJobs: ({ query }) => jobs.list(query),
    draftJob: {
      prepare: async ({ params, body }, asker) => {
        const drafted = await jobs.draft(params.feederId, body)
        return { write: () => jobs.keep(asker, drafted) }
      },
    },
    getJob: ({ params }) => jobs.get(params.jobId),
    changeJob: ({ params, body }, asker) => jobs.change(asker, params.jobId, body),
    moveJob: {
      prepare: async ({ params, body }, asker) => ({
        write: await jobs.prepareMove(asker, params.jobId, body),
      }),
    },
    sendEntries: async ({ params, body }, asker) => ({
      outcomes: await jobs.sendEntries(asker, params.jobId, body.entries),
    }),
    putAsLeft: ({ params, body }, asker) => jobs.putAsLeft(asker, params.jobId, body),
    deleteJob: ({ params, query }, asker) => jobs.delete(asker, params.jobId, query.version),
    restoreJob: ({ params, query }, asker) => jobs.restore(asker, params.jobId, query.version),
    listSequences: () => stepSequences.list(),
    putSequence: ({ params, body }, asker) => stepSequences.put(asker, params.sequenceId, body),
    withdrawSequence: ({ params, query }, asker) =>
      stepSequences.withdraw(asker, params.sequenceId, query.version),
  }
}
