import type { Regulator } from '#domain/feeder/equipment.ts'
import { proposedRegulator } from '#domain/siting/proposed-regulator.ts'
import type { ProposedBank } from '#domain/siting/site-result.ts'

/** Id of a bank that stands on trial. */
export function trialBankId(index: number): string {
  return `new-bank-${index + 1}`
}

/** A proposed bank as the power flow takes it, named by its place in the proposal. */
export function regulatorOfBank(bank: ProposedBank, index: number): Regulator {
  return proposedRegulator(bank, trialBankId(index))
}
