import { type Complex, complex } from '#domain/units/complex.ts'
import { KM_PER_MILE, M_PER_FT } from '#domain/units/length.ts'
import type { ConductorPosition } from '../feeder/line-type.ts'
import { CONDUCTORS, type Conductor } from './conductor-table.ts'
import { type ComplexMatrix, invertPositiveDefinite, kronReduce } from './square-matrix.ts'

/**
 * Series impedance and shunt susceptance of an overhead line from positions and conductors.
 *
 * Modified Carson equations, Kron reduction and potential coefficients as in W. H. Kersting,
 * Distribution System Modeling and Analysis, chapters 4 and 5 (from memory; worked examples 4.1
 * and 5.1 are reproduced by the tests). Lengths inside in feet, per mile, as the source has them.
 */
export interface LineConstants {
  /** Phases in the order of the matrices' rows. */
  readonly phases: readonly ('A' | 'B' | 'C')[]
  /** Kron-reduced phase impedance, ohm/km. */
  readonly zOhmPerKm: ComplexMatrix
  /** Phase susceptance, µS/km. */
  readonly bMicrosiemensPerKm: number[][]
}

export interface LineSurroundings {
  readonly earthOhmM: number
  readonly frequencyHz: number
}

/** Resistance of the earth return, ohm/mile per hertz. */
const EARTH_OHM_PER_MILE_HZ = 0.00158836
/** Reactance factor, ohm/mile per hertz. */
const REACTANCE_OHM_PER_MILE_HZ = 0.00202237
/** Constant of the equivalent earth return depth for unit resistivity and frequency. */
const EARTH_DEPTH_CONSTANT = 7.6786
/** 1 / (2π ε0), mile/µF. */
const POTENTIAL_MILE_PER_MICROFARAD = 11.17689

interface Wire {
  readonly role: ConductorPosition['role']
  readonly xFt: number
  readonly heightFt: number
  readonly conductor: Conductor
}

/** Throws for a conductor that is not in the table; reading a feeder reports that as a finding first. */
export function lineConstants(
  positions: readonly ConductorPosition[],
  surroundings: LineSurroundings,
): LineConstants {
  const wires = wiresInOrder(positions)
  const phases = wires.flatMap(({ role }) => (role === 'N' ? [] : [role]))
  const z = kronReduce(primitiveImpedance(wires, surroundings), phases.length)
  const b = susceptance(wires, phases.length, surroundings.frequencyHz)
  return {
    phases,
    zOhmPerKm: z.map((row) => row.map(({ re, im }) => complex(re / KM_PER_MILE, im / KM_PER_MILE))),
    bMicrosiemensPerKm: b.map((row) => row.map((value) => value / KM_PER_MILE)),
  }
}

/** Phases A, B, C first, neutrals after them. */
function wiresInOrder(positions: readonly ConductorPosition[]): Wire[] {
  return positions
    .map(({ role, xM, heightM, conductor }) => ({
      role,
      xFt: xM / M_PER_FT,
      heightFt: heightM / M_PER_FT,
      conductor: conductorOf(conductor),
    }))
    .sort((a, b) => 'ABCN'.indexOf(a.role) - 'ABCN'.indexOf(b.role))
}

function conductorOf(id: string): Conductor {
  const found = CONDUCTORS.get(id)
  if (!found) throw new Error(`Conductor "${id}" is not in the table.`)
  return found
}

/** Primitive impedance before reduction, ohm/mile; rows as `wires`. */
function primitiveImpedance(
  wires: readonly Wire[],
  { earthOhmM, frequencyHz }: LineSurroundings,
): ComplexMatrix {
  const earth = EARTH_OHM_PER_MILE_HZ * frequencyHz
  const factor = REACTANCE_OHM_PER_MILE_HZ * frequencyHz
  const depth = EARTH_DEPTH_CONSTANT + 0.5 * Math.log(earthOhmM / frequencyHz)
  return wires.map((a) =>
    wires.map((b): Complex => {
      const isSelf = a === b
      const reach = isSelf ? a.conductor.gmrFt : Math.hypot(a.xFt - b.xFt, a.heightFt - b.heightFt)
      const resistance = (isSelf ? a.conductor.resistanceOhmPerMile : 0) + earth
      return complex(resistance, factor * (Math.log(1 / reach) + depth))
    }),
  )
}

/** Kron-reduced shunt susceptance of the first `phaseCount` wires, µS/mile. */
function susceptance(wires: readonly Wire[], phaseCount: number, frequencyHz: number): number[][] {
  const potential = wires.map((a) =>
    wires.map((b) => {
      const image = Math.hypot(a.xFt - b.xFt, a.heightFt + b.heightFt)
      const direct =
        a === b ? a.conductor.diameterIn / 24 : Math.hypot(a.xFt - b.xFt, a.heightFt - b.heightFt)
      return complex(POTENTIAL_MILE_PER_MICROFARAD * Math.log(image / direct))
    }),
  )
  const reduced = kronReduce(potential, phaseCount).map((row) => row.map(({ re }) => re))
  return invertPositiveDefinite(reduced).map((row) =>
    row.map((value) => 2 * Math.PI * frequencyHz * value),
  )
}

/** Positions that two wires share would divide by zero; the reader reports them. */
export function haveDistinctPositions(positions: readonly ConductorPosition[]): boolean {
  return positions.every((a, i) =>
    positions.every((b, j) => i >= j || Math.hypot(a.xM - b.xM, a.heightM - b.heightM) > 1e-6),
  )
}
