import { z } from 'zod'
import { Nest } from '#domain/feeder/birds.ts'
import { Id, IsoDate } from '#domain/feeder/identifiers.ts'
import { Kept, Version } from './versioned.ts'

export const NestParams = z.object({ feederId: Id, nestId: Id })

/** How a nest fared in one season. */
export const NestSeason = z.object({
  year: z.number().int().min(1900).max(2200),
  status: z.enum(['in use', 'not in use', 'unknown']),
  seenOn: IsoDate.optional(),
  young: z.number().int().min(0).max(20).optional(),
  note: z.string().max(2000).optional(),
})

export const NestBody = Nest.omit({ id: true }).extend({
  seasons: z.array(NestSeason).max(100).default([]),
  note: z.string().max(4000).default(''),
})
export const ChangeNestBody = NestBody.extend({ version: Version })
export const NestRecord = NestBody.extend({ id: Id, ...Kept })

export type NestBody = z.infer<typeof NestBody>
export type ChangeNestBody = z.infer<typeof ChangeNestBody>
export type NestRecord = z.infer<typeof NestRecord>
