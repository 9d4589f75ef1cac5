import { Regulator } from '#domain/feeder/equipment.ts'
import type { ProposedBank } from './site-result.ts'

/** A proposed bank as equipment, ready to be solved with or kept in a feeder. */
export function proposedRegulator(bank: ProposedBank, id = `new-${bank.span}`): Regulator {
  const { bandCentreV, bandwidthV, ctPrimaryA, delayS, phases, pole, ptRatio } = bank
  const { ratingA, ratingKva, rV = 0, span, windingType, xV = 0 } = bank
  return Regulator.parse({
    kind: 'regulator',
    id,
    pole,
    span,
    phases,
    windingType,
    ratingKva,
    ratingA,
    ptRatio,
    ctPrimaryA,
    bandCentreV,
    bandwidthV,
    rV,
    xV,
    delayS,
  })
}
