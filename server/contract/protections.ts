import { z } from 'zod'
import { Protection } from '#domain/feeder/birds.ts'
import { Id } from '#domain/feeder/identifiers.ts'
import { Actor } from './actor.ts'

export const ProtectionParams = z.object({ feederId: Id, protectionId: Id })

const Version = z.number().int().min(1)

/** What a person fills in; the id is given by the server. */
export const ProtectionBody = Protection.omit({ id: true })

/** `version` is the one that the person saw; a newer one in the record refuses the change. */
export const ChangeProtectionBody = ProtectionBody.extend({ version: Version })

export const ProtectionVersionQuery = z.object({
  version: z.coerce.number<number>().int().min(1),
})

export const ProtectionRecord = Protection.extend({
  version: Version,
  changedBy: Actor,
  changedAt: z.iso.datetime(),
  deletedAt: z.iso.datetime().nullable(),
})

export type ProtectionBody = z.infer<typeof ProtectionBody>
export type ChangeProtectionBody = z.infer<typeof ChangeProtectionBody>
export type ProtectionRecord = z.infer<typeof ProtectionRecord>
