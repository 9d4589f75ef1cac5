/**
 * Preferred ratings of single-phase step-voltage regulators at 60 Hz, ±10 % range
 * (IEEE C57.15, from memory: check against the standard before a purchase).
 * kVA = rated kV × A × 0.1.
 */
export interface UnitClass {
  readonly ratedKv: number
  /** Continuous current and kVA of each preferred unit, smallest first. */
  readonly units: readonly StandardUnit[]
}

export interface StandardUnit {
  readonly ratingA: number
  readonly ratingKva: number
}

const unitClass = (ratedKv: number, pairs: readonly (readonly [number, number])[]): UnitClass => ({
  ratedKv,
  units: pairs.map(([ratingA, ratingKva]) => ({ ratingA, ratingKva })),
})

export const UNIT_CLASSES: readonly UnitClass[] = [
  unitClass(2.5, [
    [200, 50],
    [300, 75],
    [400, 100],
    [500, 125],
    [668, 167],
    [1000, 250],
    [1332, 333],
    [1665, 416.3],
  ]),
  unitClass(5, [
    [50, 25],
    [100, 50],
    [200, 100],
    [250, 125],
    [334, 167],
    [500, 250],
    [668, 333],
    [833, 416.3],
  ]),
  unitClass(7.62, [
    [50, 38.1],
    [75, 57.2],
    [100, 76.2],
    [150, 114.3],
    [219, 167],
    [328, 250],
    [438, 333],
    [546, 416.3],
    [668, 509],
    [875, 667],
    [1093, 833],
  ]),
  unitClass(13.8, [
    [50, 69],
    [100, 138],
    [150, 207],
    [200, 276],
    [300, 414],
    [400, 552],
  ]),
  unitClass(14.4, [
    [50, 72],
    [100, 144],
    [150, 216],
    [200, 288],
    [231, 333],
    [300, 432],
    [400, 576],
    [463, 667],
    [578, 833],
  ]),
  unitClass(19.92, [
    [50, 100],
    [100, 200],
    [167, 333],
    [200, 400],
    [334, 667],
    [418, 833],
  ]),
  unitClass(34.5, [
    [50, 172.5],
    [100, 345],
    [150, 517.5],
    [200, 690],
  ]),
]

/** Continuous current allowed when the range is held to fewer steps (IEEE C57.15, from memory). */
export const SUPPLEMENTARY_RATINGS: readonly {
  readonly tapLimit: number
  readonly share: number
}[] = [
  { tapLimit: 16, share: 1 },
  { tapLimit: 14, share: 1.1 },
  { tapLimit: 12, share: 1.2 },
  { tapLimit: 10, share: 1.35 },
  { tapLimit: 8, share: 1.6 },
]

/** No supplementary rating goes above this current (IEEE C57.15, from memory). */
export const SUPPLEMENTARY_CAP_A = 668

/** Nominal line-to-neutral volts and the potential-transformer ratio to 120 V. */
export const PT_RATIOS: readonly (readonly [number, number])[] = [
  [2400, 20],
  [2500, 20.8],
  [4160, 34.6],
  [4800, 40],
  [7200, 60],
  [7620, 63.5],
  [7970, 66.4],
  [13200, 110],
  [13800, 115],
  [14400, 120],
  [19920, 166],
]

/** Usual primary currents of the current transformers in regulators (from memory). */
export const CT_PRIMARIES_A: readonly number[] = [
  50, 75, 100, 150, 200, 250, 300, 350, 400, 500, 600, 700, 800, 1000, 1200, 1600, 2000,
]
