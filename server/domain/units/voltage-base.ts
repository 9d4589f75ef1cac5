/** The 120 V base on which North American utilities state every voltage. */
export const BASE_VOLTS120 = 120

export function volts120OfPu(pu: number): number {
  return pu * BASE_VOLTS120
}

/** Nominal line-to-neutral volts of a system named by its line-to-line kilovolts. */
export function lineToNeutralV(nominalKvLineToLine: number): number {
  return (nominalKvLineToLine * 1000) / Math.sqrt(3)
}

/** Line-to-line kilovolts of volts to neutral: the other way round. */
export function lineToLineKv(neutralV: number): number {
  return (neutralV * Math.sqrt(3)) / 1000
}
