import { z } from 'zod'
import { MonthDay } from '../feeder/birds.ts'
import { IsoDate } from '../feeder/identifiers.ts'
import { MEASURE_KINDS } from '../feeder/measure-kinds.ts'
import { EXPOSURE_FACTORS } from './exposure/exposure.ts'

const SizeM = z.number().positive().max(5)

/** Distance and season of one species in a region's recommendation. */
export const BufferRule = z.object({
  species: z.string().trim().min(1).max(80),
  distanceM: z.number().min(0).max(50_000),
  from: MonthDay,
  to: MonthDay,
  sureness: z.enum(['published', 'from memory', 'assumption']),
})

/** Advisory; the agency decides. */
export const BufferSet = z.object({
  id: z.string().regex(/^[a-z0-9-]{1,40}$/),
  region: z.string().trim().min(1).max(120),
  source: z.string().trim().min(1).max(600),
  /** Date of the source, or of the day that it was seen. */
  sourceDate: z.string().max(40),
  rules: z.array(BufferRule).max(200),
})

/** Days after a find until each step is due; the inspection counts from the fix. */
export const FollowUpDays = z.object({
  visit: z.number().int().min(0).max(3650),
  fix: z.number().int().min(0).max(3650),
  inspection: z.number().int().min(0).max(3650),
  neighbours: z.number().int().min(0).max(3650),
})

/**
 * What the utility sets for its bird work, in place of what the program starts with. Empty lists
 * leave everything as shipped.
 */
export const BirdSettings = z.object({
  /** Separation that a pole is held against, metres. */
  guidance: z
    .object({ horizontalM: SizeM, verticalM: SizeM, citation: z.string().max(600) })
    .optional(),
  /** Species whose pairs decide on the state of a pole. */
  designSpeciesId: z.string().max(60).optional(),
  countWetFeathers: z.boolean().default(false),
  species: z
    .array(
      z.object({
        id: z.string().max(60),
        breadthM: SizeM.optional(),
        heightM: SizeM.optional(),
        source: z.string().trim().min(1).max(600),
      }),
    )
    .max(100)
    .default([]),
  measures: z
    .array(
      z.object({
        kind: z.enum(MEASURE_KINDS),
        costUsd: z.number().min(0).max(1e7).optional(),
        lifeYears: z.number().min(1).max(100).optional(),
        source: z.string().trim().min(1).max(600),
      }),
    )
    .max(50)
    .default([]),
  weights: z.partialRecord(z.enum(EXPOSURE_FACTORS), z.number().min(0).max(10)).default({}),
  bufferSets: z.array(BufferSet).max(30).default([]),
  /** Id of the set in force, shipped or entered. */
  bufferSetId: z.string().max(40).optional(),
  followUpEagle: FollowUpDays.optional(),
  followUpOther: FollowUpDays.optional(),
  inspectEveryMonths: z.number().int().min(1).max(600).optional(),
  /** Of the published index, copied from the paper by a person who has it; none are shipped. */
  publishedIndex: z
    .object({
      intercept: z.number(),
      perPhase: z.number(),
      perJumper: z.number(),
      grounded: z.number(),
      copiedBy: z.string().trim().min(1).max(200),
      copiedOn: IsoDate,
    })
    .optional(),
})

export type BirdSettings = z.infer<typeof BirdSettings>
export type BufferSet = z.infer<typeof BufferSet>
export type BufferRule = z.infer<typeof BufferRule>
export type FollowUpDays = z.infer<typeof FollowUpDays>
