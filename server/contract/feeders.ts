import { z } from 'zod'
import { Feeder } from '#domain/feeder/feeder.ts'
import { Finding } from '#domain/feeder/finding.ts'
import { Id } from '#domain/feeder/identifiers.ts'

/** Where a feeder came from: the invented demo, a published test feeder, or someone's own layers. */
export const Origin = z.enum(['demo', 'published', 'added'])

const Version = z.number().int().min(1)

export const FeederSummary = z.object({
  id: Id,
  name: z.string(),
  nominalKv: z.number(),
  place: Id.nullable(),
  origin: Origin,
  version: Version,
  poles: z.number().int(),
  customers: z.number().int(),
  coordinates: z.enum(['surveyed', 'schematic', 'invented']),
})

export const FeederParams = z.object({ feederId: Id })

/** An older version than the newest; the newest when left out. */
export const FeederQuery = z.object({ version: z.coerce.number<number>().int().min(1).optional() })

/** `protections` of the feeder are the ones that stand in the record now, not those of the file. */
export const FeederAnswer = z.object({ feeder: Feeder, version: Version, origin: Origin })

/** Layer files by name, as "feeder.json" or "poles.geojson", with their parsed JSON content. */
export const TakeInBody = z.object({ layers: z.record(z.string(), z.unknown()) })

export const TakenIn = z.object({ id: Id, version: Version, findings: z.array(Finding) })

export const FindingsAnswer = z.object({ findings: z.array(Finding) })

export type Origin = z.infer<typeof Origin>
export type FeederSummary = z.infer<typeof FeederSummary>
export type FeederAnswer = z.infer<typeof FeederAnswer>
export type TakeInBody = z.infer<typeof TakeInBody>
export type TakenIn = z.infer<typeof TakenIn>
