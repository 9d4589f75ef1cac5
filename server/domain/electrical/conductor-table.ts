/**
 * Overhead conductors: outside diameter, geometric mean radius, 60 Hz resistance at 50 °C,
 * and continuous current at 75 °C conductor, 25 °C air, 2 ft/s wind.
 *
 * Source: W. H. Kersting, Distribution System Modeling and Analysis, appendix A, and Electrical
 * Transmission and Distribution Reference Book (1964), table 2-A. Written from memory; the
 * stranded rows agree with their strand factors and the ACSR rows used by the published
 * 13- and 34-node feeders reproduce those feeders' impedances. AAC and 18/1 rows: radius from the
 * strand factor, resistance from 61 % IACS with 2 % stranding at 50 °C (computed).
 */
export interface Conductor {
  readonly id: string
  readonly diameterIn: number
  readonly gmrFt: number
  readonly resistanceOhmPerMile: number
  /** Null where the source gives none. */
  readonly ampacityA: number | null
}

type Row = readonly [
  id: string,
  diameterIn: number,
  gmrFt: number,
  ohmPerMile: number,
  ampacityA: number | null,
]

const ROWS: readonly Row[] = [
  ['6 6/1 ACSR', 0.198, 0.00394, 3.98, 100],
  ['4 6/1 ACSR', 0.25, 0.00437, 2.57, 140],
  ['4 7/1 ACSR', 0.257, 0.00452, 2.55, 140],
  ['3 6/1 ACSR', 0.281, 0.0043, 2.07, 160],
  ['2 6/1 ACSR', 0.316, 0.00418, 1.69, 180],
  ['2 7/1 ACSR', 0.325, 0.00504, 1.65, 180],
  ['1 6/1 ACSR', 0.355, 0.00418, 1.38, 200],
  ['1/0 6/1 ACSR', 0.398, 0.00446, 1.12, 230],
  ['2/0 6/1 ACSR', 0.447, 0.0051, 0.895, 270],
  ['3/0 6/1 ACSR', 0.502, 0.006, 0.723, 300],
  ['4/0 6/1 ACSR', 0.563, 0.00814, 0.592, 340],
  ['266.8 26/7 ACSR', 0.642, 0.0217, 0.385, 460],
  ['300 26/7 ACSR', 0.68, 0.023, 0.342, 490],
  ['336.4 26/7 ACSR', 0.721, 0.0244, 0.306, 530],
  ['336.4 30/7 ACSR', 0.741, 0.0255, 0.306, 530],
  ['397.5 26/7 ACSR', 0.783, 0.0265, 0.259, 590],
  ['477 26/7 ACSR', 0.858, 0.029, 0.216, 670],
  ['477 30/7 ACSR', 0.883, 0.0304, 0.216, 670],
  ['556.5 26/7 ACSR', 0.927, 0.0313, 0.1859, 730],
  ['636 26/7 ACSR', 0.99, 0.0335, 0.1618, 780],
  ['795 26/7 ACSR', 1.108, 0.0375, 0.1288, 900],
  ['1/0 7 AAC', 0.368, 0.0111, 0.97, 310],
  ['2/0 7 AAC', 0.414, 0.0125, 0.769, null],
  ['3/0 7 AAC', 0.464, 0.014, 0.611, null],
  ['4/0 7 AAC', 0.522, 0.0158, 0.484, null],
  ['336.4 19 AAC', 0.666, 0.021, 0.305, null],
  ['477 19 AAC', 0.793, 0.025, 0.216, null],
  ['556.5 19 AAC', 0.856, 0.027, 0.186, null],
  ['795 37 AAC', 1.026, 0.0328, 0.131, null],
  ['6 solid Cu', 0.162, 0.00526, 2.41, 120],
  ['4 3 Cu', 0.254, 0.00717, 1.518, 180],
  ['2 7 Cu', 0.292, 0.00883, 0.964, 230],
  ['1/0 7 Cu', 0.368, 0.01113, 0.607, 310],
  ['2/0 7 Cu', 0.414, 0.01252, 0.481, 360],
  ['4/0 19 Cu', 0.528, 0.01668, 0.303, 480],
  ['266.8 18/1 ACSR', 0.609, 0.0197, 0.385, null],
  ['336.4 18/1 ACSR', 0.684, 0.0221, 0.306, null],
  ['397.5 18/1 ACSR', 0.743, 0.024, 0.259, null],
  ['477 18/1 ACSR', 0.814, 0.0263, 0.216, null],
  ['556.5 18/1 ACSR', 0.879, 0.0284, 0.186, null],
]

export const CONDUCTORS: ReadonlyMap<string, Conductor> = new Map(
  ROWS.map(([id, diameterIn, gmrFt, resistanceOhmPerMile, ampacityA]) => [
    id,
    { id, diameterIn, gmrFt, resistanceOhmPerMile, ampacityA },
  ]),
)
