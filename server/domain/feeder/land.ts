import { z } from 'zod'
import { Area, Path } from './geometry.ts'
import { Id } from './identifiers.ts'

/** A road, track or gate by which a truck reaches the poles. A gate is a line of two points across the track. */
export const Access = z.object({
  id: Id,
  path: Path,
  kind: z.enum(['road', 'track', 'gate']),
  name: z.string().optional(),
  note: z.string().optional(),
})

/** Land where nothing may be set. */
export const KeepOut = z.object({
  id: Id,
  area: Area,
  name: z.string().min(1),
  reason: z.string().min(1),
})

export type Access = z.infer<typeof Access>
export type KeepOut = z.infer<typeof KeepOut>
