import { z } from 'zod'
import { Protection } from '#domain/feeder/birds.ts'
import { Id } from '#domain/feeder/identifiers.ts'
import { Kept, Version } from './versioned.ts'

export const ProtectionParams = z.object({ feederId: Id, protectionId: Id })

/** What a person fills in; the id is given by the server. */
export const ProtectionBody = Protection.omit({ id: true })

/** `version` is the one that the person saw; a newer one in the record refuses the change. */
export const ChangeProtectionBody = ProtectionBody.extend({ version: Version })

export const ProtectionRecord = Protection.extend(Kept)

export type ProtectionBody = z.infer<typeof ProtectionBody>
export type ChangeProtectionBody = z.infer<typeof ChangeProtectionBody>
export type ProtectionRecord = z.infer<typeof ProtectionRecord>
