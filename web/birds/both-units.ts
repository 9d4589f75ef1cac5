import { inchesOfMetres } from '#domain/units/length.ts'

/** "60 in (1.524 m)": a figure of guidance, to be held against its source. */
export function inBothUnits(lengthM: number): string {
  return `${Number(inchesOfMetres(lengthM).toFixed(1))} in (${lengthM.toFixed(3)} m)`
}
