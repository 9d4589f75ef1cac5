import { describe, expect, it } from 'vitest'
import { type LineConstants, lineConstants } from '#domain/electrical/line-constants.ts'
import type { ConductorPosition } from '#domain/feeder/line-type.ts'
import { KM_PER_MILE } from '#domain/units/length.ts'
import { publishedFeeder } from './published-feeder.ts'
import {
  PUBLISHED_CONFIGURATIONS,
  positionsFt,
  positionsOfConfiguration,
} from './published-line-geometry.ts'

const SURROUNDINGS = { earthOhmM: 100, frequencyHz: 60 }
const IMPEDANCE_BOUND_OHM_PER_MILE = 0.0005
const ADMITTANCE_BOUND = 0.005

type Matrix = readonly (readonly number[])[]

const ohmPerMile = ({ zOhmPerKm }: LineConstants) => ({
  r: zOhmPerKm.map((row) => row.map(({ re }) => re * KM_PER_MILE)),
  x: zOhmPerKm.map((row) => row.map(({ im }) => im * KM_PER_MILE)),
})

const microsiemensPerMile = ({ bMicrosiemensPerKm }: LineConstants) =>
  bMicrosiemensPerKm.map((row) => row.map((value) => value * KM_PER_MILE))

/** Largest difference of two matrices, entry by entry, as `measure` weighs it. */
function worst(
  computed: Matrix,
  published: Matrix,
  measure: (computed: number, published: number) => number,
): number {
  const differences = published.flatMap((row, i) =>
    row.map((value, j) => measure(computed[i]?.[j] ?? Number.NaN, value)),
  )
  return differences.some(Number.isNaN) ? Number.NaN : Math.max(...differences)
}

const apart = (computed: number, published: number) => Math.abs(computed - published)
const apartOf = (computed: number, published: number) =>
  Math.abs(computed - published) / Math.abs(published)

/** 336,400 cmil 26/7 ACSR over a 4/0 6/1 ACSR neutral at 29 and 25 ft. */
const EXAMPLE: ConductorPosition[] = positionsFt(
  [
    [0, 29],
    [2.5, 29],
    [7, 29],
  ],
  [4, 25],
  {
    phasing: ['A', 'B', 'C'],
    phaseConductor: '336.4 26/7 ACSR',
    neutralConductor: '4/0 6/1 ACSR',
  },
)

describe("Kersting's line example (Distribution System Modeling and Analysis, from memory)", () => {
  it('has the phase impedances of example 4.1 within 0.0005 ohm/mile', () => {
    const { r, x } = ohmPerMile(lineConstants(EXAMPLE, SURROUNDINGS))
    const published = {
      r: [
        [0.4576, 0.156, 0.1535],
        [0.156, 0.4666, 0.158],
        [0.1535, 0.158, 0.4615],
      ],
      x: [
        [1.078, 0.5017, 0.3849],
        [0.5017, 1.0482, 0.4236],
        [0.3849, 0.4236, 1.0651],
      ],
    }
    expect(worst(r, published.r, apart)).toBeLessThan(IMPEDANCE_BOUND_OHM_PER_MILE)
    expect(worst(x, published.x, apart)).toBeLessThan(IMPEDANCE_BOUND_OHM_PER_MILE)
  })

  it('has the shunt admittances of example 5.1 within 0.5 %', () => {
    const b = microsiemensPerMile(lineConstants(EXAMPLE, SURROUNDINGS))
    const published = [
      [5.6711, -1.8362, -0.7033],
      [-1.8362, 5.9774, -1.169],
      [-0.7033, -1.169, 5.391],
    ]
    expect(worst(b, published, apartOf)).toBeLessThan(ADMITTANCE_BOUND)
  })

  it('has the impedances of problem 4.1 with larger conductors and phases B and C changed over', () => {
    const positions = positionsFt(
      [
        [0, 29],
        [7, 29],
        [2.5, 29],
      ],
      [4, 25],
      {
        phasing: ['A', 'B', 'C'],
        phaseConductor: '556.5 26/7 ACSR',
        neutralConductor: '4/0 6/1 ACSR',
      },
    )
    const { r, x } = ohmPerMile(lineConstants(positions, SURROUNDINGS))
    const published = {
      r: [
        [0.3375, 0.1535, 0.156],
        [0.1535, 0.3414, 0.158],
        [0.156, 0.158, 0.3465],
      ],
      x: [
        [1.0478, 0.3849, 0.5017],
        [0.3849, 1.0348, 0.4236],
        [0.5017, 0.4236, 1.0179],
      ],
    }
    expect(worst(r, published.r, apart)).toBeLessThan(IMPEDANCE_BOUND_OHM_PER_MILE)
    expect(worst(x, published.x, apart)).toBeLessThan(IMPEDANCE_BOUND_OHM_PER_MILE)
  })
})

describe('the overhead configurations of the IEEE 13 and 34 Node Test Feeders', () => {
  it.each(PUBLISHED_CONFIGURATIONS)(
    'has the published matrices of configuration $id from its geometry (601: document text; others from memory)',
    async (configuration) => {
      const feeder = await publishedFeeder(configuration.feeder)
      const lineType = feeder.header.lineTypes.find(({ id }) => id === configuration.id)
      if (lineType?.kind !== 'matrix') throw new Error(`No matrix line type ${configuration.id}.`)
      const computed = lineConstants(positionsOfConfiguration(configuration), SURROUNDINGS)
      const { r, x } = ohmPerMile(computed)
      const b = microsiemensPerMile(computed)
      computed.phases.forEach((row, i) => {
        computed.phases.forEach((column, j) => {
          const name = [row, column].toSorted().join('') as 'AA'
          const [publishedR, publishedX] = lineType.zOhmPerKm[name]!
          const publishedB = lineType.bMicrosiemensPerKm![name]! * KM_PER_MILE
          expect(apart(r[i]![j]!, publishedR * KM_PER_MILE)).toBeLessThan(
            IMPEDANCE_BOUND_OHM_PER_MILE,
          )
          expect(apart(x[i]![j]!, publishedX * KM_PER_MILE)).toBeLessThan(
            IMPEDANCE_BOUND_OHM_PER_MILE,
          )
          expect(apartOf(b[i]![j]!, publishedB)).toBeLessThan(ADMITTANCE_BOUND)
        })
      })
    },
  )
})

describe('the line of the IEEE 4 Node Test Feeder (from memory)', () => {
  const PHASES_FT = [
    [0, 28],
    [2.5, 28],
    [7, 28],
  ] as const

  it.each([
    { lineTypeId: 'four-wire', neutralConductor: '4/0 6/1 ACSR' },
    { lineTypeId: 'three-wire', neutralConductor: null },
  ])('has the published $lineTypeId impedances from its geometry', async (wires) => {
    const feeder = await publishedFeeder('ieee4-dy-balanced')
    const lineType = feeder.header.lineTypes.find(({ id }) => id === wires.lineTypeId)
    if (lineType?.kind !== 'matrix') throw new Error(`No matrix line type ${wires.lineTypeId}.`)
    const positions = positionsFt(PHASES_FT, [4, 24], {
      phasing: ['A', 'B', 'C'],
      phaseConductor: '336.4 26/7 ACSR',
      neutralConductor: wires.neutralConductor,
    })
    const { r, x } = ohmPerMile(lineConstants(positions, SURROUNDINGS))
    const entries = Object.entries(lineType.zOhmPerKm)
    expect(entries).toHaveLength(6)
    for (const [name, [publishedR, publishedX]] of entries) {
      const i = 'ABC'.indexOf(name[0]!)
      const j = 'ABC'.indexOf(name[1]!)
      expect(apart(r[i]![j]!, publishedR * KM_PER_MILE)).toBeLessThan(IMPEDANCE_BOUND_OHM_PER_MILE)
      expect(apart(x[i]![j]!, publishedX * KM_PER_MILE)).toBeLessThan(IMPEDANCE_BOUND_OHM_PER_MILE)
    }
  })
})
