import type { ProposedBank } from '#domain/siting/site-result.ts'
import type { FeederModel } from '../state/feeder-model.ts'
import { bankPlaces } from './bank-places.ts'

/** Poles of the banks as the address has them; a bank that was not moved keeps an empty place. */
export function movedPoles(moved: string | null, count: number): (string | null)[] {
  const poles = (moved ?? '').split(',')
  return Array.from({ length: count }, (_, index) => poles[index] || null)
}

/** The address of banks at these poles; null where every bank stands as proposed. */
export function movedText(banks: readonly ProposedBank[], poles: readonly string[]): string | null {
  const isMoved = banks.some(({ pole }, index) => pole !== poles[index])
  return isMoved ? poles.join(',') : null
}

/** Banks with their poles as moved by hand; a pole where the bank cannot stand moves nothing. */
export function banksAsMoved(
  model: FeederModel,
  banks: readonly ProposedBank[],
  moved: string | null,
): ProposedBank[] {
  const poles = movedPoles(moved, banks.length)
  return banks.map((bank, index) => {
    const pole = poles[index]
    const span = pole && bankPlaces(model, bank.phases).get(pole)
    if (!pole || !span) return bank
    return { ...bank, pole, span, distanceM: model.distanceM.get(pole) ?? bank.distanceM }
  })
}
