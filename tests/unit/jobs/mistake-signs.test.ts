import { describe, expect, it } from 'vitest'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { expectedInCases } from '#domain/jobs/expected-readings.ts'
import { type MistakeSign, MistakeSign as MistakeSignSchema } from '#domain/jobs/job-plan.ts'
import { mistakeSigns } from '#domain/jobs/mistake-signs.ts'
import type { Phase } from '#domain/units/phases.ts'
import { SAMPLE_BANK, sampleFeeder, sampleWork } from './sample-bank.ts'

type Mistake = MistakeSign['mistake']

function signsOf(signs: readonly MistakeSign[], mistake: Mistake, phase?: Phase): string[] {
  const found = signs.find((each) => each.mistake === mistake && each.phase === phase)
  if (!found) throw new Error(`No signs of "${mistake}".`)
  return found.signs
}

/** Volts of a line are told to ten. */
const HALF_OF_TEN_V = 5
const voltsOf = (told: string | undefined) => Number(told?.replaceAll(',', ''))

/** "load volts 6,180 V (103.0), where 7,330 V (122.2) is right". */
function loadVolts(sentence: string | undefined): { wrong: number; right: number } {
  const found = /load volts ([\d,]+) V \([\d.]+\), where ([\d,]+) V/.exec(sentence ?? '')
  return { wrong: voltsOf(found?.[1]), right: voltsOf(found?.[2]) }
}

/** Volts of load and source with the bank held at the same tap on each phase. */
function heldVolts(regulator: Regulator, taps: Partial<Record<Phase, number>>, phase: Phase) {
  const [solution] = solveFeeder(sampleFeeder(), {
    taps: 'fixed',
    caseIds: ['peak'],
    extraBanks: [regulator],
    fixedTaps: { [regulator.id]: taps },
  })
  if (solution?.status !== 'converged') throw new Error('Expected a solution.')
  const volts = (id: string) => {
    const node = solution.nodes.find((each) => each.id === id)!
    return node.phases[phase]!.pu * node.nominalV
  }
  return { load: volts(`${regulator.id}:out`), source: volts('P2') }
}

const feeder = sampleFeeder()
const signs = mistakeSigns(feeder, sampleWork())

describe('signs of a mistake', () => {
  it('are there for each way in which a bank of three units can be connected wrongly', () => {
    expect(signs.map(({ mistake, phase }) => `${mistake} ${phase ?? ''}`.trim())).toEqual([
      'source and load leads swapped',
      'polarity of one unit reversed A',
      'polarity of one unit reversed B',
      'polarity of one unit reversed C',
      'wrong potential ratio',
      'phases rolled',
    ])
    for (const sign of signs) expect(MistakeSignSchema.safeParse(sign).success).toBe(true)
  })

  it('say beside what is read what the plan expects', () => {
    const [peak] = expectedInCases(feeder, sampleWork()).cases
    const rightV = peak!.readings.find(({ phase }) => phase === 'A')!.loadV
    const [, left] = signsOf(signs, 'polarity of one unit reversed', 'A')
    expect(loadVolts(left).right).toBe(Math.round(rightV / 10) * 10)
  })

  it('leave phases alone on a bank of one unit', () => {
    const one = mistakeSigns(feeder, sampleWork({ phases: 'B' }))
    expect(one.map(({ mistake, phase }) => [mistake, phase])).toEqual([
      ['source and load leads swapped', undefined],
      ['polarity of one unit reversed', 'B'],
      ['wrong potential ratio', undefined],
    ])
  })

  it('are not made up where the feeder cannot be solved', () => {
    const dead: Feeder = {
      ...feeder,
      spans: feeder.spans.map((span) => ({ ...span, isNormallyOpen: span.id === 'P2:P3' })),
    }
    expect(mistakeSigns(dead, sampleWork())).toEqual([])
    const drained = { ...feeder, loads: feeder.loads.map((load) => ({ ...load, kwA: 90_000 })) }
    expect(mistakeSigns(drained, sampleWork())).toEqual([])
  })
})

/** V_L = (1 + 0.00625 n) V_S of type A, V_S = (1 − 0.00625 n) V_L of type B: Kersting, ch. 7, from memory. */
describe('swapped leads', () => {
  it('of type B run to 16 raise at peak and take a tenth of the volts away', () => {
    const left = signsOf(signs, 'source and load leads swapped')[1]
    expect(left).toMatch(/the A unit runs to the end of its range, 16 raise, where 11 raise/)
    // At 16 raise the load has (1 − 0.1) of the source: what type A does at −16.
    const taps = { A: -16, B: -16, C: -16 }
    const { load, source } = heldVolts({ ...SAMPLE_BANK, windingType: 'A' }, taps, 'A')
    expect(load / source).toBeCloseTo(0.9, 9)
    expect(Math.abs(loadVolts(left).wrong - load)).toBeLessThanOrEqual(HALF_OF_TEN_V)
  })

  it('of type A leave the load 1/1.1 of the source at 16 raise', () => {
    const typeA = { ...SAMPLE_BANK, windingType: 'A' as const }
    const left = signsOf(mistakeSigns(feeder, sampleWork(typeA)), 'source and load leads swapped')
    const taps = { A: -16, B: -16, C: -16 }
    const { load, source } = heldVolts({ ...SAMPLE_BANK, windingType: 'B' }, taps, 'A')
    expect(load / source).toBeCloseTo(1 / 1.1, 9)
    expect(Math.abs(loadVolts(left[1]).wrong - load)).toBeLessThanOrEqual(HALF_OF_TEN_V)
  })

  it('let the load fall when raised by hand, while the control hardly moves', () => {
    const [byHand] = signsOf(signs, 'source and load leads swapped')
    expect(byHand).toMatch(/^Raised 4 steps in manual from neutral/)
    expect(byHand).toMatch(/go the wrong way/)
    const [, from, to] = /control goes from ([\d.]+) V to ([\d.]+) V/.exec(byHand!)!
    expect(Math.abs(Number(from) - Number(to))).toBeLessThan(0.5)
  })

  it('make the control read power backward', () => {
    expect(signsOf(signs, 'source and load leads swapped')[2]).toMatch(/kW reverse on A/)
  })
})

describe('swapped leads on a line without load', () => {
  it('would not show by the direction of power', () => {
    const loads = feeder.loads.map((load) => ({ ...load, kwA: 1, kwB: 1, kwC: 1 }))
    const found = mistakeSigns({ ...feeder, loads }, sampleWork())
    expect(signsOf(found, 'source and load leads swapped').at(-1)).toMatch(
      /would not show by the direction of power/,
    )
  })
})

describe('a unit with its polarity reversed', () => {
  it('bucks by 1/1.1 of type B when its control has run to 16 raise', () => {
    const left = signsOf(signs, 'polarity of one unit reversed', 'A')[1]
    expect(left).toMatch(/16 raise, where 11 raise is right/)
    // Steps the other way: V_S = (1 + 0.1) V_L. B and C stand where their controls leave them.
    const { readings } = expectedInCases(feeder, sampleWork()).cases[0]!
    const taps = Object.fromEntries(readings.map(({ phase, tap }) => [phase, tap]))
    const { load, source } = heldVolts(SAMPLE_BANK, { ...taps, A: -16 }, 'A')
    expect(source / load).toBeCloseTo(1.1, 9)
    // The other two may rest a step apart, which hardly moves phase A.
    expect(Math.abs(loadVolts(left).wrong - load)).toBeLessThan(5 + HALF_OF_TEN_V)
  })

  it('would not show by its control where the source is in the band already', () => {
    const quiet: Feeder = {
      ...feeder,
      header: {
        ...feeder.header,
        cases: feeder.header.cases.filter(({ id }) => id === 'light'),
      },
    }
    const work = sampleWork({ bandCentreV: 119.4 })
    const found = signsOf(mistakeSigns(quiet, work), 'polarity of one unit reversed', 'A')
    expect(found[0]).toMatch(/go the wrong way/)
    expect(found[1]).toBe(
      'Left to its control it would not show in Light load: load volts come within 1.0 V (120 V base, as near as meters tell: common practice, no source) of what is right.',
    )
  })

  it('cannot be told by hand on a bank without steps', () => {
    const found = mistakeSigns(feeder, sampleWork({ maxRaise: 0, maxLower: 0 }))
    for (const sentence of signsOf(found, 'polarity of one unit reversed', 'A')) {
      expect(sentence).toMatch(/would not show/)
    }
  })

  it('is tried by lowering where the bank may not raise', () => {
    const found = mistakeSigns(feeder, sampleWork({ maxRaise: 0 }))
    expect(signsOf(found, 'polarity of one unit reversed', 'A')[0]).toMatch(/^Lowered 4 steps/)
  })
})

/** Ratios next to 60 in the list of nominal volts over 120: 4800 V gives 40 and 7620 V gives 63.5. */
describe('a wrong potential ratio', () => {
  const found = signsOf(signs, 'wrong potential ratio')

  it('is tried with the next ratio below and above', () => {
    expect(found.map((sentence) => /^Ratio ([\d.]+) in place of 60/.exec(sentence)?.[1])).toEqual([
      '40',
      '40',
      '63.5',
      '63.5',
    ])
  })

  it('makes the control read the line over the wrong ratio at neutral', () => {
    const [, reads, line, right] =
      /reads ([\d.]+) V with ([\d,]+) V on the line, where ([\d.]+) V/.exec(found[2]!)!
    const roundedAwayV = HALF_OF_TEN_V / 60 + 0.05
    expect(Math.abs(Number(reads) - voltsOf(line) / 63.5)).toBeLessThanOrEqual(roundedAwayV)
    expect(Math.abs(Number(right) - voltsOf(line) / 60)).toBeLessThanOrEqual(roundedAwayV)
  })

  it('makes the control hold the line at its band times the wrong ratio', () => {
    expect(found[3]).toMatch(/Light load\) the C unit comes to rest at/)
    const held = loadVolts(found[3]).wrong
    expect(Math.abs(held / 63.5 - 122)).toBeLessThan(1)
  })

  it('runs to the end of the range where it cannot come that far', () => {
    expect(found[1]).toMatch(/runs to the end of its range, 16 lower/)
  })
})

describe('phases that are rolled', () => {
  it('put phase to phase across a unit when the load leads alone are moved on', () => {
    const [across] = signsOf(signs, 'phases rolled')
    const acrossV = voltsOf(/unit reads ([\d,]+) V/.exec(across!)?.[1])
    const { source: a } = heldVolts(SAMPLE_BANK, {}, 'A')
    const { source: b } = heldVolts(SAMPLE_BANK, {}, 'B')
    // Law of cosines with the phases about 120° apart.
    expect(Math.abs(acrossV / Math.sqrt(a * a + b * b + a * b) - 1)).toBeLessThan(0.02)
    expect(across).toMatch(/short circuit between A and B/)
  })

  it('show the amps of the next phase when both sides are moved on', () => {
    const [, through] = signsOf(signs, 'phases rolled')
    const { readings } = expectedInCases(feeder, sampleWork()).cases[0]!
    const amps = (phase: Phase) => readings.find((each) => each.phase === phase)!.amps.toFixed(1)
    expect(through).toContain(`${amps('A')} A where ${amps('C')} A is right`)
  })

  it('would not show when both sides are moved on and the phases carry alike', () => {
    const even: Feeder = {
      ...feeder,
      loads: feeder.loads.map((load) => ({
        ...load,
        ...{ kwB: load.kwA, kwC: load.kwA, kvarB: load.kvarA, kvarC: load.kvarA },
      })),
    }
    const [, through] = signsOf(mistakeSigns(even, sampleWork()), 'phases rolled')
    expect(through).toMatch(/it would not show in Peak/)
  })
})
