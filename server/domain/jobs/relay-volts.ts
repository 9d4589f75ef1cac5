import {
  type Complex,
  complex,
  magnitude,
  multiply,
  scale,
  subtract,
} from '#domain/units/complex.ts'
import type { Regulator } from '../feeder/equipment.ts'

export type ControlSettings = Pick<Regulator, 'ptRatio' | 'ctPrimaryA' | 'rV' | 'xV'>

/**
 * What a control reads of a voltage and a current, volts on the 120 base: volts over the ratio, less
 * the drop over its R and X settings (Kersting, Distribution System Modeling and Analysis,
 * chapter 7, from memory).
 */
export function relayVolts(
  { ptRatio, ctPrimaryA, rV, xV }: ControlSettings,
  volts: Complex,
  current: Complex,
): number {
  const drop = scale(multiply(complex(rV, xV), current), 1 / ctPrimaryA)
  return magnitude(subtract(scale(volts, 1 / ptRatio), drop))
}
