import { z } from 'zod'
import { Position } from './geometry.ts'

/** Layers of a feeder folder, named as their files are. */
export const LAYERS = [
  'feeder',
  'poles',
  'spans',
  'equipment',
  'loads',
  'nests',
  'habitat',
  'incidents',
  'covers',
  'access',
  'keepout',
] as const
export type LayerName = (typeof LAYERS)[number]

/** Something wrong or worth knowing in the data. Errors refuse the feeder; warnings and notices do not. */
export const Finding = z.object({
  severity: z.enum(['error', 'warning', 'notice']),
  /** Stable name of the rule, as "loop" or "phase-not-fed". */
  code: z.string(),
  layer: z.enum(LAYERS),
  featureId: z.string().nullable(),
  place: Position.nullable(),
  what: z.string(),
  remedy: z.string(),
})
export type Finding = z.infer<typeof Finding>

export function hasErrors(findings: readonly Finding[]): boolean {
  return findings.some((finding) => finding.severity === 'error')
}
