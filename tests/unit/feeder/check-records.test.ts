import { describe, expect, it } from 'vitest'
import { checkRecords } from '#domain/feeder/check-records.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { feederSketch, plainLineType } from '../../support/feeder-sketch.ts'

const LINE = { from: 'P1', to: 'P2', phases: 'ABC', lineType: 'open' } as const
const LATERAL = { from: 'P2', to: 'P3', phases: 'B', lineType: 'single' } as const

const lineTypes = [
  plainLineType('open', 0.3, 0.6),
  {
    id: 'single',
    name: 'Single',
    kind: 'matrix' as const,
    zOhmPerKm: { BB: [0.5, 0.7] as [number, number] },
  },
]

const sound = () =>
  feederSketch({
    lineTypes,
    spans: [
      { id: 'S1', ...LINE },
      { id: 'S2', ...LATERAL },
    ],
  })

type Sketch = Parameters<typeof feederSketch>[0]
const codes = (feeder: Feeder) =>
  checkRecords(feeder).map(({ severity, code, featureId }) => [severity, code, featureId])
const sketched = (changes: Partial<Sketch>) =>
  feederSketch({
    lineTypes,
    spans: [
      { id: 'S1', ...LINE },
      { id: 'S2', ...LATERAL },
    ],
    ...changes,
  })

const BANK = {
  id: 'R1',
  kind: 'regulator',
  pole: 'P1',
  span: 'S1',
  phases: 'ABC',
  windingType: 'B',
  ptRatio: 60,
  ctPrimaryA: 100,
  bandCentreV: 122,
  bandwidthV: 2,
} as const

describe('the records of a feeder', () => {
  it('pass when they are sound', () => {
    expect(codes(sound())).toEqual([])
  })

  it('may not name a source pole that is not there', () => {
    expect(codes(sketched({ source: { pole: 'P0' } }))).toEqual([
      ['error', 'no-such-pole', 'sketch'],
    ])
  })

  it('may not name a span that is not there, for a device or for a spread load', () => {
    const feeder = sketched({
      equipment: [{ ...BANK, span: 'S7' }],
      loads: [{ id: 'L1', span: 'S8', kwA: 1 }],
    })
    expect(codes(feeder)).toEqual([
      ['error', 'no-such-span', 'R1'],
      ['error', 'no-such-span', 'L1'],
    ])
  })

  it('may not give a span phases that its line type lacks', () => {
    const feeder = sketched({
      spans: [
        { id: 'S1', ...LINE },
        { id: 'S2', ...LATERAL, phases: 'BC' },
      ],
    })
    expect(codes(feeder)).toEqual([['error', 'line-type-lacks-phase', 'S2']])
  })

  it('may not lead a span back to its own pole', () => {
    const feeder = sketched({ spans: [{ id: 'S1', ...LINE, to: 'P1' }] })
    expect(codes(feeder)).toEqual([['error', 'span-to-itself', 'S1']])
  })

  it('may not put a three-phase bank on a single-phase span', () => {
    const feeder = sketched({ equipment: [{ ...BANK, pole: 'P2', span: 'S2' }] })
    expect(codes(feeder)).toEqual([['error', 'equipment-phase-not-on-span', 'R1']])
  })

  it('warn of a capacitor on a phase that no span brings to its pole', () => {
    const feeder = sketched({
      equipment: [{ id: 'C1', kind: 'capacitor', pole: 'P3', phases: 'A', kvarA: 100 }],
    })
    expect(codes(feeder)).toEqual([['warning', 'equipment-phase-not-at-pole', 'C1']])
  })

  it('need the voltages and the impedance of a transformer in series', () => {
    const feeder = sketched({
      equipment: [
        { id: 'T1', kind: 'transformer', pole: 'P1', span: 'S1', phases: 'ABC', ratingKva: 500 },
        { id: 'T2', kind: 'transformer', pole: 'P3', phases: 'B', ratingKva: 25 },
      ],
    })
    const [finding, ...others] = checkRecords(feeder)
    expect(others).toEqual([])
    expect(finding).toMatchObject({ code: 'transformer-incomplete', featureId: 'T1' })
    expect(finding?.what).toContain('high_kv, low_kv, r_pct, x_pct')
  })

  it('need a transformer in series on every phase of its span', () => {
    const bank = {
      id: 'T1',
      kind: 'transformer',
      pole: 'P1',
      span: 'S1',
      ratingKva: 500,
      connection: 'grounded-wye-grounded-wye',
      highKv: 12.47,
      lowKv: 4.16,
      rPct: 1,
      xPct: 4,
    } as const
    expect(codes(sketched({ equipment: [{ ...bank, phases: 'ABC' }] }))).toEqual([])
    expect(codes(sketched({ equipment: [{ ...bank, phases: 'AB' }] }))).toEqual([
      ['error', 'transformer-not-on-whole-span', 'T1'],
    ])
  })

  it('may not stand a tap beyond the range that the record itself gives', () => {
    const feeder = sketched({ equipment: [{ ...BANK, tapB: 10, maxRaise: 8 }] })
    expect(codes(feeder)).toEqual([['error', 'tap-beyond-range', 'R1']])
  })

  it('may stand so on a bank that is bypassed: its range holds nothing then', () => {
    const equipment = [{ ...BANK, tapB: 10, maxRaise: 8, state: 'bypassed' as const }]
    expect(codes(sketched({ equipment }))).toEqual([])
  })

  it('may give each unit of a bank its serial number', () => {
    const serials = { serialA: '4417-A', serialB: '4418-A', serialC: '4419-A' }
    expect(codes(sketched({ equipment: [{ ...BANK, ...serials }] }))).toEqual([])
  })

  it('warn of one serial number on two units, and of one where no unit is', () => {
    const twice = sketched({ equipment: [{ ...BANK, serialA: '4417', serialC: '4417' }] })
    expect(codes(twice)).toEqual([['warning', 'serial-twice', 'R1']])
    expect(checkRecords(twice)[0]?.remedy).toContain('serial_a, serial_c')
    const without = sketched({
      equipment: [{ ...BANK, phases: 'AB' as const, serialC: '4419' }],
    })
    expect(codes(without)).toEqual([['warning', 'serial-without-unit', 'R1']])
  })

  it('may not name a line type or a case twice', () => {
    const feeder = sketched({
      lineTypes: [...lineTypes, plainLineType('open', 1, 1)],
      cases: [
        { id: 'peak', name: 'Peak' },
        { id: 'peak', name: 'Peak again' },
      ],
    })
    expect(codes(feeder)).toEqual([
      ['error', 'duplicate-id', 'sketch'],
      ['error', 'duplicate-id', 'sketch'],
    ])
  })
})
