/** International foot and mile (exact by definition, 1959 agreement). */
export const M_PER_FT = 0.3048
export const M_PER_IN = 0.0254
export const M_PER_MILE = 1609.344
export const KM_PER_MILE = M_PER_MILE / 1000

export function feetOfMetres(lengthM: number): number {
  return lengthM / M_PER_FT
}

export function inchesOfMetres(lengthM: number): number {
  return lengthM / M_PER_IN
}

export function milesOfMetres(lengthM: number): number {
  return lengthM / M_PER_MILE
}
