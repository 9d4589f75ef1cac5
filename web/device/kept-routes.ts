import type { Attachment } from '#contract/attachments.ts'
import type { FeederAnswer } from '#contract/feeders.ts'
import type { JobSummary } from '#contract/jobs.ts'
import type { RouteName } from '#contract/routes.ts'

/** Small answers are kept whenever they come by, large ones once they were taken offline. */
type Keeping = 'always' | 'when taken offline'

/** Answers that the device keeps, so that the pages work on without the server. */
const KEEPING: Partial<Readonly<Record<RouteName, Keeping>>> = {
  getMe: 'always',
  getSettings: 'always',
  listNames: 'always',
  listFeeders: 'always',
  listProtections: 'always',
  listPoleTops: 'always',
  listNests: 'always',
  listIncidents: 'always',
  listProgrammes: 'always',
  getBirdSettings: 'always',
  listAttachments: 'always',
  listJobs: 'always',
  getJob: 'always',
  listSequences: 'always',
  getFeeder: 'when taken offline',
  getLand: 'when taken offline',
  getAttachmentFile: 'when taken offline',
}

export function keepingOf(name: RouteName): Keeping | null {
  return KEEPING[name] ?? null
}

/** Without these no page comes up, so they stay when other things are taken off the device. */
export const NEEDED_TO_START: readonly RouteName[] = [
  'getMe',
  'getSettings',
  'listNames',
  'listFeeders',
]

export interface LooseInput {
  readonly params?: Readonly<Record<string, unknown>>
  readonly query?: Readonly<Record<string, unknown>>
}

/** How a narrower answer is found in a copy of a wider one. */
interface Wider {
  readonly input: LooseInput
  /** The narrower answer; null where the copy does not hold it. */
  readonly narrow: (answer: unknown) => unknown
}

/** The wider question whose copy holds the answer to this one, if there is such a question. */
export function widerOf(name: RouteName, { params, query = {} }: LooseInput): Wider | null {
  if (name === 'listAttachments') {
    const { attachedTo, attachedToId } = query
    const isAsked = (item: Attachment) =>
      (attachedTo === undefined || item.attachedTo === attachedTo) &&
      (attachedToId === undefined || item.attachedToId === attachedToId)
    return { input: { params }, narrow: (answer) => (answer as Attachment[]).filter(isAsked) }
  }
  if (name === 'listJobs') {
    const { feederId, open } = query
    const isAsked = (job: JobSummary) =>
      (feederId === undefined || job.feederId === feederId) &&
      (open === undefined || job.state !== 'closed')
    const input = { query: open !== undefined && feederId !== undefined ? { feederId } : {} }
    return { input, narrow: (answer) => (answer as JobSummary[]).filter(isAsked) }
  }
  if (name === 'getFeeder' && query.version !== undefined) {
    const narrow = (answer: unknown) =>
      (answer as FeederAnswer).version === Number(query.version) ? answer : null
    return { input: { params }, narrow }
  }
  return null
}
