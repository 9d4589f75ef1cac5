import type { PhaseMask } from '#domain/units/phases.ts'
import type { LineType } from '../feeder/line-type.ts'
import { lineConstants } from './line-constants.ts'
import { entry } from './square-matrix.ts'

/** Matrices of one line type over all three phases; rows of phases it lacks are zero. */
export interface LineMatrices {
  /** Row-major 3 × 3 complex, stride 18: re, im; ohm/km. */
  readonly zOhmPerKm: Float64Array
  /** Row-major 3 × 3, siemens/km. */
  readonly bSiemensPerKm: Float64Array
  readonly mask: PhaseMask
}

const PAIRS = [
  ['AA', 0, 0],
  ['BB', 1, 1],
  ['CC', 2, 2],
  ['AB', 0, 1],
  ['AC', 0, 2],
  ['BC', 1, 2],
] as const

export function lineMatrices(lineType: LineType): LineMatrices {
  return lineType.kind === 'matrix' ? fromMatrix(lineType) : fromGeometry(lineType)
}

function fromMatrix(lineType: Extract<LineType, { kind: 'matrix' }>): LineMatrices {
  const z = new Float64Array(18)
  const b = new Float64Array(9)
  let mask = 0
  for (const [name, row, column] of PAIRS) {
    const impedance = lineType.zOhmPerKm[name]
    if (impedance) {
      setSymmetric(z, row, column, impedance[0], impedance[1])
      if (row === column) mask |= 1 << row
    }
    const charging = (lineType.bMicrosiemensPerKm?.[name] ?? 0) * 1e-6
    b[row * 3 + column] = charging
    b[column * 3 + row] = charging
  }
  return { zOhmPerKm: z, bSiemensPerKm: b, mask }
}

function fromGeometry(lineType: Extract<LineType, { kind: 'geometry' }>): LineMatrices {
  const constants = lineConstants(lineType.positions, lineType)
  const rows = constants.phases.map((phase) => 'ABC'.indexOf(phase))
  const z = new Float64Array(18)
  const b = new Float64Array(9)
  let mask = 0
  rows.forEach((row, i) => {
    mask |= 1 << row
    rows.forEach((column, j) => {
      const { re, im } = entry(constants.zOhmPerKm, i, j)
      setSymmetric(z, row, column, re, im)
      if (lineType.hasCharging)
        b[row * 3 + column] = entry(constants.bMicrosiemensPerKm, i, j) * 1e-6
    })
  })
  return { zOhmPerKm: z, bSiemensPerKm: b, mask }
}

function setSymmetric(
  matrix: Float64Array,
  row: number,
  column: number,
  re: number,
  im: number,
): void {
  for (const at of [row * 6 + column * 2, column * 6 + row * 2]) {
    matrix[at] = re
    matrix[at + 1] = im
  }
}
