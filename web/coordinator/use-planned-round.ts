import { useMay } from '../api/account.ts'
import { useProgrammes } from '../api/programmes.ts'
import { type NamedProgramme, useProgrammeLookedAt } from './shown-programme.ts'

/** What "planned" means on the map: the programme being looked at, else the newest one in force. */
export function usePlannedRound(feederId: string): NamedProgramme | null {
  const lookedAt = useProgrammeLookedAt(feederId)
  const { data } = useProgrammes(feederId, useMay('see nests and incidents'))
  if (lookedAt) return lookedAt
  const [inForce] = (data ?? [])
    .filter(({ state }) => state === 'in force')
    .sort((a, b) => (a.changedAt < b.changedAt ? 1 : -1))
  return inForce ? { feederId, name: inForce.name, programme: inForce.programme } : null
}
