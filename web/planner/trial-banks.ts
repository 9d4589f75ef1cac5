import type { Regulator } from '#domain/feeder/equipment.ts'
import type { ProposedBank } from '#domain/siting/site-result.ts'

/** Id of a bank that stands on trial. */
export function trialBankId(index: number): string {
  return `new-bank-${index + 1}`
}

/** A proposed bank as the power flow takes it, its taps from neutral. */
export function regulatorOfBank(bank: ProposedBank, index: number): Regulator {
  const { pole, span, phases, windingType, ratingKva, ratingA, ptRatio, ctPrimaryA } = bank
  return {
    kind: 'regulator',
    id: trialBankId(index),
    pole,
    span,
    phases,
    windingType,
    connection: 'wye',
    ratingKva,
    ratingA,
    ptRatio,
    ctPrimaryA,
    bandCentreV: bank.bandCentreV,
    bandwidthV: bank.bandwidthV,
    rV: 0,
    xV: 0,
    delayS: bank.delayS,
    tapA: 0,
    tapB: 0,
    tapC: 0,
    maxRaise: 16,
    maxLower: 16,
  }
}
