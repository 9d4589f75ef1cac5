import type { z } from 'zod'
import { Feeder } from '#domain/feeder/feeder.ts'

type FeederInput = z.input<typeof Feeder>

/** Impedance of a bare three-phase line of small conductor, invented for tests, ohm/km. */
const LINE: FeederInput['header']['lineTypes'][number] = {
  id: 'small-acsr',
  name: 'Small conductor',
  kind: 'matrix',
  ampacityA: 180,
  zOhmPerKm: {
    AA: [0.74, 0.82],
    BB: [0.74, 0.82],
    CC: [0.74, 0.82],
    AB: [0.1, 0.36],
    AC: [0.1, 0.36],
    BC: [0.1, 0.36],
  },
}

/** About 10 km along the parallel of 43° north. */
const LENGTH_DEG = 0.1229

interface SmallFeederChoices {
  readonly id?: string
  readonly name?: string
  readonly poles?: number
  readonly place?: string
}

/**
 * A straight three-phase line of 12.47 kV with one load at each pole but the first, so long and
 * so loaded that its end is low at peak. Poles P1, P2, … and spans S1 (P1 to P2), S2, …
 */
export function smallFeeder({
  id = 'small',
  name = 'Small feeder',
  poles = 5,
  place,
}: SmallFeederChoices = {}): Feeder {
  const numbers = Array.from({ length: poles }, (_, index) => index + 1)
  const stepDeg = LENGTH_DEG / (poles - 1)
  const at = (number: number): [number, number] => [-107 + (number - 1) * stepDeg, 43]
  const others = numbers.slice(1)
  const loadKw = 600 / others.length
  return Feeder.parse({
    header: {
      format: 'crossarm-feeder-1',
      id,
      name,
      nominalKv: 12.47,
      source: { pole: 'P1', voltagePu: 1.02 },
      lineTypes: [LINE],
      cases: [
        { id: 'peak', name: 'Peak', loadFactor: 1, hoursPerYear: 1000 },
        { id: 'light', name: 'Light', loadFactor: 0.3, hoursPerYear: 7760 },
      ],
      coordinates: 'invented',
      ...(place && { place }),
    },
    poles: numbers.map((number) => ({
      id: `P${number}`,
      at: at(number),
      heightM: 13.7,
      poleClass: '3',
      material: 'wood',
    })),
    spans: others.map((number) => ({
      id: `S${number - 1}`,
      from: `P${number - 1}`,
      to: `P${number}`,
      path: [at(number - 1), at(number)],
      phases: 'ABC',
      lineType: LINE.id,
    })),
    equipment: [],
    loads: others.map((number) => ({
      id: `L${number}`,
      pole: `P${number}`,
      kwA: loadKw,
      kwB: loadKw,
      kwC: loadKw,
      kvarA: loadKw / 3,
      kvarB: loadKw / 3,
      kvarC: loadKw / 3,
      customers: 10,
    })),
    nests: [],
    habitat: [],
    incidents: [],
    protections: [
      {
        id: 'cover-1',
        pole: 'P2',
        kind: 'cover',
        what: 'bushing cover',
        state: 'on',
        on: '2026-04-01',
      },
    ],
    access: [],
    keepOuts: [],
  })
}
