import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'
import { Role } from './actor.ts'

export const SUBJECTS = [
  'feeder',
  'study',
  'proposal',
  'protection',
  'nest',
  'incident',
  'pole-top',
  'programme',
  'bird-settings',
  'job',
  // The version of an entry is its place among those of its job, whose id it goes by.
  'job-entry',
  'as-left',
  'step-sequence',
  'attachment',
  'person',
  'token',
] as const
export const Subject = z.enum(SUBJECTS)

export const WHAT_HAPPENED = ['added', 'changed', 'deleted', 'restored', 'purged'] as const

/**
 * One change. `before` is null for the first, `after` for a purge. `seq` grows by one with each
 * change of anything; `hash` closes the entry and, through `previousHash`, all before it.
 */
export const HistoryEntry = z.object({
  seq: z.number().int().min(1),
  subject: Subject,
  /** Null for what belongs to no feeder. */
  feederId: Id.nullable(),
  subjectId: Id,
  version: z.number().int().min(1),
  what: z.enum(WHAT_HAPPENED),
  at: z.iso.datetime(),
  /** Time on the device, for what was entered without connection. */
  deviceAt: z.iso.datetime().nullable(),
  actorId: Id,
  actorRole: Role,
  /** Why it was purged; null for all else. */
  reason: z.string().nullable(),
  before: z.unknown(),
  after: z.unknown(),
  previousHash: z.string(),
  hash: z.string(),
})

export const HistoryParams = z.object({ subject: Subject, subjectId: Id })
export const HistoryQuery = z.object({ feederId: Id.optional() })
export const HistoryAnswer = z.object({ entries: z.array(HistoryEntry) })

export const TakeOutQuery = z.object({
  as: z.enum(['csv', 'json-lines']).default('csv'),
  subject: Subject.optional(),
  feederId: Id.optional(),
})

/** Told to everyone who may see the subject, as soon as the change is kept. */
export const ChangeNotice = z.object({
  event: z.literal('change'),
  /** The `seq` of the history; sent as the event's id, so that a broken stream goes on from there. */
  id: z.string(),
  data: HistoryEntry.pick({
    seq: true,
    subject: true,
    feederId: true,
    subjectId: true,
    version: true,
    what: true,
    at: true,
  }).extend({
    /** Null for who may not see who changed what. */
    actorId: Id.nullable(),
  }),
})
/** Sent first: changes after this one follow. Its id lets a stream go on that broke before any change. */
export const FollowingFrom = z.object({
  event: z.literal('here'),
  id: z.string(),
  data: z.object({ seq: z.number().int().min(0) }),
})
export const ChangeEvent = z.discriminatedUnion('event', [FollowingFrom, ChangeNotice])
export const FollowChangesQuery = z.object({
  /** Changes after this `seq`; only those from now on when left out. */
  after: z.coerce.number<number>().int().min(0).optional(),
})

/** What was deleted and can be restored or purged. */
export const DeletedItem = z.object({
  subject: Subject,
  feederId: Id,
  subjectId: Id,
  /** In words: the name of a proposal, what a cover is and where. */
  what: z.string(),
  version: z.number().int().min(1),
  deletedAt: z.iso.datetime(),
  deletedBy: Id,
})
export const PurgeBody = z.object({
  subject: z.enum([
    'proposal',
    'protection',
    'nest',
    'incident',
    'pole-top',
    'programme',
    'job',
    'attachment',
  ]),
  feederId: Id,
  subjectId: Id,
  version: z.number().int().min(1),
  reason: z.string().trim().min(3).max(400),
})

export type Subject = z.infer<typeof Subject>
export type HistoryEntry = z.infer<typeof HistoryEntry>
export type ChangeNotice = z.infer<typeof ChangeNotice>
export type ChangeEvent = z.infer<typeof ChangeEvent>
export type DeletedItem = z.infer<typeof DeletedItem>
export type PurgeBody = z.infer<typeof PurgeBody>
export type TakeOutQuery = z.infer<typeof TakeOutQuery>
