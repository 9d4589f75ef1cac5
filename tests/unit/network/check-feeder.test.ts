import { describe, expect, it } from 'vitest'
import { checkFeeder } from '#domain/network/check-feeder.ts'
import { traceFeeder } from '#domain/network/trace-feeder.ts'
import { type FeederSketch, feederSketch, plainLineType } from '../../support/feeder-sketch.ts'

const lineTypes = [plainLineType('line', 0.3, 0.6)]
const span = (id: string, from: string, to: string, extra: object = {}) => ({
  id,
  from,
  to,
  phases: 'ABC' as const,
  lineType: 'line',
  lengthM: 100,
  ...extra,
})

function codes(sketch: Omit<FeederSketch, 'lineTypes'>): string[] {
  return checkFeeder(feederSketch({ lineTypes, ...sketch })).map(({ code }) => code)
}

describe('checking how a feeder hangs together', () => {
  it('finds nothing wrong with a plain radial line', () => {
    expect(codes({ spans: [span('S1', 'P0', 'P1'), span('S2', 'P1', 'P2')] })).toEqual([])
  })
  it('names the span that closes a loop and the spans of the loop', () => {
    const feeder = feederSketch({
      lineTypes,
      spans: [
        span('S1', 'P0', 'P1'),
        span('S2', 'P1', 'P2'),
        span('S3', 'P2', 'P3'),
        span('S4', 'P3', 'P1'),
      ],
    })
    const [finding] = checkFeeder(feeder)
    expect(finding).toMatchObject({ severity: 'error', code: 'loop', layer: 'spans' })
    const named = new Set([finding?.featureId, ...(finding?.what.match(/S\d/g) ?? [])])
    expect(named).toEqual(new Set(['S2', 'S3', 'S4']))
  })
  it('accepts the same loop with one span normally open', () => {
    expect(
      codes({
        spans: [
          span('S1', 'P0', 'P1'),
          span('S2', 'P1', 'P2'),
          span('S3', 'P2', 'P1', { isNormallyOpen: true }),
        ],
      }),
    ).toEqual([])
  })
  it('reports poles that nothing reaches once for the whole group', () => {
    const sketch = {
      spans: [span('S1', 'P0', 'P1'), span('S2', 'P5', 'P6'), span('S3', 'P6', 'P7')],
    }
    const findings = checkFeeder(feederSketch({ lineTypes, ...sketch }))
    expect(findings).toHaveLength(1)
    expect(findings[0]).toMatchObject({ severity: 'warning', code: 'island' })
    expect(findings[0]?.what).toContain('3 poles')
  })
  it('only notes poles that are dark because a switch is open', () => {
    const spans = [span('S1', 'P0', 'P1'), span('S2', 'P1', 'P2')]
    const equipment = [
      {
        id: 'SW',
        pole: 'P1',
        span: 'S2',
        kind: 'switch' as const,
        phases: 'ABC' as const,
        state: 'open' as const,
      },
    ]
    expect(checkFeeder(feederSketch({ lineTypes, spans, equipment }))).toMatchObject([
      { severity: 'notice', code: 'open-island' },
    ])
  })
  it('says which phase does not arrive and which load it leaves out', () => {
    const spans = [
      span('S1', 'P0', 'P1', { phases: 'A' }),
      span('S2', 'P1', 'P2', { phases: 'AB' }),
    ]
    const loads = [{ id: 'L', pole: 'P2', kwA: 5, kwB: 5 }]
    const findings = checkFeeder(feederSketch({ lineTypes, spans, loads }))
    expect(findings.map(({ code, featureId }) => [code, featureId])).toEqual([
      ['phase-not-fed', 'S2'],
      ['load-not-fed', 'L'],
    ])
    expect(findings[0]?.what).toContain('phase B')
  })
  it('refuses a regulator that power reaches from the wrong side', () => {
    const spans = [span('S1', 'P0', 'P1'), span('S2', 'P2', 'P1')]
    const equipment = [
      {
        id: 'R',
        pole: 'P2',
        span: 'S2',
        kind: 'regulator' as const,
        phases: 'ABC' as const,
        windingType: 'B' as const,
        ptRatio: 60,
        ctPrimaryA: 100,
        bandCentreV: 122,
        bandwidthV: 2,
      },
    ]
    expect(codes({ spans, equipment })).toEqual(['series-equipment-backwards'])
  })
  describe('finds of a bank that stands bypassed', () => {
    const bank = {
      id: 'R',
      pole: 'P1',
      span: 'S2',
      kind: 'regulator' as const,
      phases: 'AB' as const,
      windingType: 'B' as const,
      ptRatio: 60,
      ctPrimaryA: 100,
      bandCentreV: 122,
      bandwidthV: 2,
      state: 'bypassed' as const,
    }
    const spans = [span('S1', 'P0', 'P1'), span('S2', 'P1', 'P2')]
    const findingsOf = (changes: Partial<typeof bank> & Record<`tap${'A' | 'B' | 'C'}`, number>) =>
      checkFeeder(feederSketch({ lineTypes, spans, equipment: [{ ...bank, ...changes }] }))
    const neutral = { tapA: 0, tapB: 0, tapC: 0 }

    it('that it does, with its place, and nothing else', () => {
      expect(findingsOf(neutral)).toMatchObject([
        { severity: 'notice', code: 'bank-bypassed', layer: 'equipment', featureId: 'R' },
      ])
      expect(findingsOf(neutral)[0]?.place).not.toBeNull()
    })
    it('the units that are not at neutral, as a warning that names them', () => {
      const [, warning] = findingsOf({ ...neutral, tapA: 4, tapB: -2 })
      expect(warning).toMatchObject({ severity: 'warning', code: 'bypassed-off-neutral' })
      expect(warning?.what).toContain('A at +4, B at −2')
      expect(warning?.remedy).toContain('tap_a, tap_b')
    })
    it('nothing about a position on a phase that has no unit', () => {
      expect(findingsOf({ ...neutral, tapC: 9 }).map(({ code }) => code)).toEqual(['bank-bypassed'])
    })
    it('nothing about its potential ratio, on which no control acts', () => {
      const codesOf = findingsOf({ ...neutral, ptRatio: 20 }).map(({ code }) => code)
      expect(codesOf).toEqual(['bank-bypassed'])
    })
    it('nothing where power comes from the other side: the line runs past it either way', () => {
      const backwards = [span('S1', 'P0', 'P1'), span('S2', 'P2', 'P1')]
      const equipment = [{ ...bank, pole: 'P2' }]
      expect(codes({ spans: backwards, equipment })).toEqual(['bank-bypassed'])
    })
  })
  it('refuses a delta bank that does not get all three phases', () => {
    const bank = {
      id: 'T',
      pole: 'P1',
      span: 'S2',
      kind: 'transformer' as const,
      phases: 'ABC' as const,
      connection: 'delta-grounded-wye' as const,
      ratingKva: 1500,
      highKv: 12.47,
      lowKv: 4.16,
      rPct: 1,
      xPct: 6,
    }
    const fed = (phases: 'ABC' | 'AB') => ({
      spans: [span('S1', 'P0', 'P1', { phases }), span('S2', 'P1', 'P2')],
      equipment: [bank],
    })
    expect(codes(fed('ABC'))).toEqual([])
    expect(codes(fed('AB'))).toEqual(['phase-not-fed', 'delta-lacks-phase'])
  })
  it('warns of a bank whose potential transformer does not suit the line, behind a transformer too', () => {
    const spans = [span('S1', 'P0', 'P1'), span('S2', 'P1', 'P2')]
    const transformer = {
      id: 'T',
      pole: 'P0',
      span: 'S1',
      kind: 'transformer' as const,
      phases: 'ABC' as const,
      ratingKva: 1500,
      highKv: 12.47,
      lowKv: 4.16,
      rPct: 1,
      xPct: 6,
    }
    const bank = {
      id: 'R',
      pole: 'P1',
      span: 'S2',
      kind: 'regulator' as const,
      phases: 'ABC' as const,
      windingType: 'B' as const,
      ctPrimaryA: 100,
      bandCentreV: 122,
      bandwidthV: 2,
    }
    const withRatio = (ptRatio: number) => ({
      spans,
      equipment: [transformer, { ...bank, ptRatio }],
    })
    expect(codes(withRatio(20))).toEqual([])
    expect(codes(withRatio(60))).toEqual(['pt-ratio-unlikely'])
  })
  it('warns of a transformer for another voltage than that of its line', () => {
    const findings = checkFeeder(
      feederSketch({
        lineTypes,
        spans: [span('S1', 'P0', 'P1')],
        equipment: [
          {
            id: 'T',
            pole: 'P0',
            span: 'S1',
            kind: 'transformer' as const,
            phases: 'ABC' as const,
            ratingKva: 1500,
            highKv: 24.94,
            lowKv: 4.16,
            rPct: 1,
            xPct: 6,
          },
        ],
      }),
    )
    expect(findings).toMatchObject([{ severity: 'warning', code: 'transformer-voltage-unlikely' }])
    expect(findings[0]?.what).toContain('12.47 kV')
    expect(findings[0]?.place).toEqual([-107, 43])
  })
  it('refuses a source that stands on no pole', () => {
    const findings = codes({ spans: [span('S1', 'P0', 'P1')], source: { pole: 'nowhere' } })
    expect(findings).toContain('source-missing')
  })
})

describe('tracing', () => {
  it('puts each subtree in one run of spans', () => {
    const feeder = feederSketch({
      lineTypes,
      spans: [
        span('S1', 'P0', 'P1'),
        span('S2', 'P1', 'P2'),
        span('S3', 'P1', 'P3'),
        span('S4', 'P2', 'P4'),
        span('S5', 'P3', 'P5'),
      ],
    })
    const { spans } = traceFeeder(feeder)
    expect(spans.map(({ span: { id } }) => id)).toEqual(['S1', 'S2', 'S4', 'S3', 'S5'])
    spans.forEach(({ parent }, index) => {
      expect(parent).toBeLessThan(index)
    })
  })
})
