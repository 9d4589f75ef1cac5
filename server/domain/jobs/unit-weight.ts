/** Pounds of one unit, from and to. */
export interface UnitWeight {
  readonly fromLb: number
  readonly toLb: number
  readonly source: string
}

type Row = readonly [ratedKv: number, ratingA: number, fromLb: number, toLb: number]

/** Order of magnitude only, from memory and not sure: the nameplate governs. */
const WEIGHTS: readonly Row[] = [
  [7.62, 100, 850, 1100],
  [7.62, 219, 1200, 1600],
  [7.62, 328, 1600, 2000],
  [7.62, 438, 2000, 2600],
  [14.4, 200, 2000, 2600],
  [19.92, 100, 1900, 2500],
]

/** A single unit up to about so much hangs on a pole, more stands on a platform; from memory, not sure. */
export const ON_POLE_LB: readonly [number, number] = [2500, 3500]

export const WEIGHT_SOURCE = 'weights from memory, of low confidence: the nameplate governs'

/**
 * What one unit weighs, between the known sizes next below and above it; null where the class has
 * none on one side.
 */
export function unitWeight(ratedKv: number, ratingA: number): UnitWeight | null {
  const rows = WEIGHTS.filter(([kv]) => kv === ratedKv)
  const below = rows.findLast(([, amps]) => amps <= ratingA)
  const above = rows.find(([, amps]) => amps >= ratingA)
  if (!below || !above) return null
  return { fromLb: below[2], toLb: above[3], source: WEIGHT_SOURCE }
}

/** Of an avoirdupois pound, exact by definition (NIST SP 811, appendix B.8; from memory). */
const KG_PER_LB = 0.453_592_37

/** "1200 to 1600 lb (544 to 726 kg)". */
export function weightInWords({ fromLb, toLb }: Pick<UnitWeight, 'fromLb' | 'toLb'>): string {
  const kg = (pounds: number) => (pounds * KG_PER_LB).toFixed(0)
  return `${fromLb} to ${toLb} lb (${kg(fromLb)} to ${kg(toLb)} kg)`
}
