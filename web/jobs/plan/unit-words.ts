import type { Regulator } from '#domain/feeder/equipment.ts'
import { phaseMask, phasesOfMask } from '#domain/units/phases.ts'
import { listed } from '../../state/format.ts'

type Numbered = Pick<Regulator, 'phases' | 'serialA' | 'serialB' | 'serialC'>

/** "A 4711, B not recorded and C 4713"; empty where none is recorded. */
export function serialsInWords(bank: Numbered): string {
  const phases = phasesOfMask(phaseMask(bank.phases))
  if (phases.every((phase) => bank[`serial${phase}`] === undefined)) return ''
  return listed(phases.map((phase) => `${phase} ${bank[`serial${phase}`] ?? 'not recorded'}`))
}

/** How SL of each unit meets the neutral; empty where nothing is recorded of it. */
export function neutralSideInWords({ neutralSide }: Pick<Regulator, 'neutralSide'>): string {
  if (neutralSide === undefined) return ''
  return neutralSide === 'switched'
    ? 'a disconnect switch between SL and the neutral at each unit'
    : 'solid, SL of each unit joined to the neutral'
}
