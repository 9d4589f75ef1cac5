import { z } from 'zod'
import { Actor } from './actor.ts'

/** Version of a record that the person saw; a newer one in the record refuses the change. */
export const Version = z.number().int().min(1)
export const VersionQuery = z.object({ version: z.coerce.number<number>().int().min(1) })

/** What every record of the bird work carries beside its own. */
export const Kept = {
  version: Version,
  changedBy: Actor,
  changedAt: z.iso.datetime(),
  deletedAt: z.iso.datetime().nullable(),
}
