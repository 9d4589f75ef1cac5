import { lineToNeutralV } from '#domain/units/voltage-base.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { FeederTrace } from './trace-feeder.ts'

/** Nominal line-to-neutral volts at the far end of each traced span; series transformers change it. */
export function nominalVolts(feeder: Feeder, trace: FeederTrace): Float64Array {
  const nominalV = new Float64Array(trace.spans.length)
  trace.spans.forEach(({ parent, devices }, index) => {
    const transformer = devices.findLast((device) => device.kind === 'transformer')
    const lowKv = transformer?.kind === 'transformer' ? transformer.lowKv : undefined
    nominalV[index] =
      lowKv === undefined ? nominalBefore(feeder, nominalV, parent) : lineToNeutralV(lowKv)
  })
  return nominalV
}

/** Nominal volts that reach a span from the one that feeds it, or from the source. */
export function nominalBefore({ header }: Feeder, nominalV: Float64Array, parent: number): number {
  return parent < 0 ? lineToNeutralV(header.nominalKv) : (nominalV[parent] ?? 0)
}
