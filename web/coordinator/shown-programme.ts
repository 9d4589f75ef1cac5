import type { Programme } from '#domain/avian/programme/programme.ts'
import { shareValue, useShared } from '../device/shared-value.ts'

export interface NamedProgramme {
  readonly feederId: string
  /** "Year 2027", or "the plan being looked at". */
  readonly name: string
  readonly programme: Programme
}

/** The programme that somebody is looking at; null shows the one in force. */
const lookedAt = shareValue<NamedProgramme | null>(null)

export const lookAtProgramme = lookedAt.set

export function useProgrammeLookedAt(feederId: string): NamedProgramme | null {
  const named = useShared(lookedAt)
  return named?.feederId === feederId ? named : null
}
