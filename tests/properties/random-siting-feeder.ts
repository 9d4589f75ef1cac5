import fc from 'fast-check'
import { Feeder } from '#domain/feeder/feeder.ts'

/**
 * Radial feeders of 8 to 18 poles, coupled and unbalanced, low at the far ends at peak and high or
 * not at light load, with loads of mixed behaviour and sometimes a bank that stands already.
 */

const NOMINAL_KV = 12.47
const PEAK = { id: 'peak', name: 'Peak', loadFactor: 1, hoursPerYear: 1500 }
const LIGHT = { id: 'light', name: 'Light', loadFactor: 0.25, hoursPerYear: 7260 }

const unit = fc.integer({ min: 0, max: 1000 }).map((x) => x / 1000)

const step = fc.record({
  /** Share of the poles so far at which the next one hangs; mostly the last, so that lines are long. */
  parent: fc.oneof({ weight: 3, arbitrary: fc.constant(1) }, { weight: 1, arbitrary: unit }),
  lengthKm: unit.map((x) => 0.6 + 2.4 * x),
  kw: fc.tuple(unit, unit, unit),
  customers: fc.integer({ min: 0, max: 12 }),
  constantPower: fc.constantFrom(0, 0.5, 1),
})

export const sitingFeeder = fc
  .record({
    steps: fc.array(step, { minLength: 7, maxLength: 17 }),
    sourcePu: unit.map((x) => 1 + 0.05 * x),
    stressKw: unit.map((x) => 150 + 450 * x),
    standing: fc.oneof(
      { weight: 2, arbitrary: fc.constant(-1) },
      { weight: 1, arbitrary: fc.integer({ min: 0, max: 6 }) },
    ),
    delayS: fc.constantFrom(30, 45, 60),
  })
  .map(({ steps, sourcePu, stressKw, standing, delayS }) => {
    const parents = steps.map(({ parent }, index) => `p${Math.round(parent * index)}`)
    const at = (index: number): [number, number] => [index / 1000, 40]
    const poles = [0, ...steps.map((_, index) => index + 1)].map((index) => ({
      id: `p${index}`,
      at: at(index),
      isAnonymousNode: true,
    }))
    const spans = steps.map(({ lengthKm }, index) => ({
      id: `s${index + 1}`,
      from: parents[index] ?? 'p0',
      to: `p${index + 1}`,
      path: [at(Number((parents[index] ?? 'p0').slice(1))), at(index + 1)],
      phases: 'ABC',
      lineType: 'line',
      lengthM: lengthKm * 1000,
    }))
    const perLoadKw = stressKw / steps.length
    const loads = steps.map(({ kw, customers, constantPower }, index) => ({
      id: `l${index + 1}`,
      pole: `p${index + 1}`,
      kwA: kw[0] * perLoadKw * 4,
      kwB: kw[1] * perLoadKw * 4,
      kwC: kw[2] * perLoadKw * 4,
      kvarA: kw[0] * perLoadKw,
      kvarB: kw[1] * perLoadKw,
      kvarC: kw[2] * perLoadKw,
      constantPower,
      constantImpedance: 1 - constantPower,
      customers: customers + 1,
    }))
    const span = spans[standing]
    const equipment = span
      ? [
          {
            kind: 'regulator',
            id: 'r1',
            pole: span.from,
            span: span.id,
            phases: 'ABC',
            windingType: 'B',
            ptRatio: 60,
            ctPrimaryA: 200,
            bandCentreV: 123,
            bandwidthV: 2,
            delayS,
          },
        ]
      : []
    return Feeder.parse({
      header: {
        format: 'crossarm-feeder-1',
        id: 'random',
        name: 'Random',
        nominalKv: NOMINAL_KV,
        source: { pole: 'p0', voltagePu: sourcePu },
        lineTypes: [
          {
            kind: 'matrix',
            id: 'line',
            name: 'Line',
            zOhmPerKm: {
              AA: [0.45, 0.7],
              BB: [0.46, 0.69],
              CC: [0.45, 0.71],
              AB: [0.08, 0.3],
              AC: [0.09, 0.26],
              BC: [0.08, 0.28],
            },
          },
        ],
        cases: [PEAK, LIGHT],
        coordinates: 'schematic',
        growthPctPerYear: 1,
      },
      poles,
      spans,
      equipment,
      loads,
      nests: [],
      habitat: [],
      incidents: [],
      protections: [],
      access: [],
      keepOuts: [],
    })
  })
