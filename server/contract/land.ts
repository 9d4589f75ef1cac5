import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'
import { LandCollection } from './geojson.ts'

export const PlaceParams = z.object({ placeId: Id })

/** Base map of a place: one collection per layer, by name ("creek", "roads"). */
export const LandAnswer = z.object({ layers: z.record(z.string(), LandCollection) })
export type LandAnswer = z.infer<typeof LandAnswer>
