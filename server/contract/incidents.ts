import { z } from 'zod'
import { Incident } from '#domain/feeder/birds.ts'
import { Id } from '#domain/feeder/identifiers.ts'
import { Kept, Version } from './versioned.ts'

export const IncidentParams = z.object({ feederId: Id, incidentId: Id })
export const IncidentBody = Incident.omit({ id: true })
export const ChangeIncidentBody = IncidentBody.extend({ version: Version })
export const IncidentRecord = Incident.extend(Kept)

export type IncidentBody = z.infer<typeof IncidentBody>
export type ChangeIncidentBody = z.infer<typeof ChangeIncidentBody>
export type IncidentRecord = z.infer<typeof IncidentRecord>
