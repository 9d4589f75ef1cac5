import { z } from 'zod'
import { Programme } from '#domain/avian/programme/programme.ts'
import { Id } from '#domain/feeder/identifiers.ts'
import { Kept, Version } from './versioned.ts'

export const ProgrammeParams = z.object({ feederId: Id, programmeId: Id })

export const KeepProgrammeBody = z.object({
  name: z.string().trim().min(1).max(120),
  note: z.string().max(4000).default(''),
  /** The one in force is what "planned" means on the map. */
  state: z.enum(['draft', 'in force', 'done']).default('draft'),
  programme: Programme,
})
export const ChangeProgrammeBody = KeepProgrammeBody.omit({ programme: true }).extend({
  version: Version,
})
export const ProgrammeRecord = KeepProgrammeBody.extend({ id: Id, feederId: Id, ...Kept })

export type KeepProgrammeBody = z.infer<typeof KeepProgrammeBody>
export type ChangeProgrammeBody = z.infer<typeof ChangeProgrammeBody>
export type ProgrammeRecord = z.infer<typeof ProgrammeRecord>
