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

/** A short length for a sentence that both kinds of reader understand: "787 ft (240 m)". */
export function feetInWords(lengthM: number): string {
  return `${feetOfMetres(lengthM).toFixed(0)} ft (${lengthM.toFixed(lengthM < 30 ? 1 : 0)} m)`
}

/** A distance along the line for such a sentence: "5.3 mi (8.5 km)". */
export function milesInWords(lengthM: number): string {
  return `${milesOfMetres(lengthM).toFixed(1)} mi (${(lengthM / 1000).toFixed(1)} km)`
}

export function milesOfMetres(lengthM: number): number {
  return lengthM / M_PER_MILE
}
