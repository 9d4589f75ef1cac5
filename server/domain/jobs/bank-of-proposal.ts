import type { Regulator } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import { proposedRegulator } from '../siting/proposed-regulator.ts'
import type { ProposedBank } from '../siting/site-result.ts'

/** Ids have 64 letters at most; these are kept for a number that tells two banks apart. */
const MOST_ID_LETTERS = 60

/**
 * A proposed bank as what will stand: it takes its id from the pole, `REG-T-98`, with a number
 * behind it where something on the feeder has that id. It comes at neutral, as it is set.
 */
export function bankOfProposal(feeder: Pick<Feeder, 'equipment'>, bank: ProposedBank): Regulator {
  const regulator = proposedRegulator(bank, freeId(feeder, `REG-${bank.pole}`))
  return { ...regulator, name: `Regulators at ${bank.pole}` }
}

function freeId({ equipment }: Pick<Feeder, 'equipment'>, wanted: string): string {
  const taken = new Set(equipment.map(({ id }) => id))
  const base = wanted.slice(0, MOST_ID_LETTERS)
  if (!taken.has(base)) return base
  let number = 2
  while (taken.has(`${base}-${number}`)) number += 1
  return `${base}-${number}`
}
