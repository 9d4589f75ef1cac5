import { describe, expect, it } from 'vitest'
import { compileNetwork } from '#domain/electrical/compile-network.ts'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { feederSketch, plainLineType } from '../../support/feeder-sketch.ts'

const bank = {
  kind: 'regulator' as const,
  phases: 'ABC' as const,
  windingType: 'B' as const,
  ptRatio: 60,
  ctPrimaryA: 200,
  bandCentreV: 124,
  bandwidthV: 2,
}
const near = { ...bank, id: 'NEAR', pole: 'P1', span: 'S2', tapA: 5, tapB: 6, tapC: 7 }
const far = { ...bank, id: 'FAR', pole: 'P2', span: 'S3', tapA: 1, tapB: 2, tapC: 3 }
const bypassed = { state: 'bypassed' as const }

const line = (equipment: Parameters<typeof feederSketch>[0]['equipment']): Feeder =>
  feederSketch({
    source: { voltagePu: 1.03 },
    lineTypes: [plainLineType('line', 0.4, 0.5)],
    spans: [
      { id: 'S1', from: 'P0', to: 'P1', phases: 'ABC', lineType: 'line', lengthM: 8_000 },
      { id: 'S2', from: 'P1', to: 'P2', phases: 'ABC', lineType: 'line', lengthM: 8_000 },
      { id: 'S3', from: 'P2', to: 'P3', phases: 'ABC', lineType: 'line', lengthM: 8_000 },
    ],
    equipment,
    loads: [{ id: 'L', pole: 'P3', kwA: 300, kwB: 250, kwC: 200 }],
  })

function solved(feeder: Feeder, options: Parameters<typeof solveFeeder>[1]) {
  const [solution] = solveFeeder(feeder, options)
  if (solution?.status !== 'converged') throw new Error(`Expected a solution: ${solution?.status}`)
  return solution
}

const puAt = (feeder: Feeder, options: Parameters<typeof solveFeeder>[1], id: string) =>
  solved(feeder, options).nodes.find((node) => node.id === id)?.phases.A?.pu

describe('a bank that stands bypassed', () => {
  it('is no regulator of the network: nothing holds a branch, a tap or a control of it', () => {
    const compiled = compileNetwork(line([{ ...near, ...bypassed }, far]))
    if (compiled.status !== 'compiled') throw new Error('Expected a feeder that compiles.')
    expect(compiled.network.regulators.map(({ id }) => id)).toEqual(['FAR'])
    expect(compiled.network.nodeIds).toEqual(['P0', 'P1', 'P2', 'P3'])
  })

  it('leaves the bank beyond it its own taps', () => {
    const [state] = solved(line([{ ...near, ...bypassed }, far]), { taps: 'fixed' }).regulators
    expect(state).toMatchObject({
      id: 'FAR',
      poleId: 'P2',
      spanId: 'S3',
      taps: { A: 1, B: 2, C: 3 },
    })
  })

  it('does not follow its control, and lets the bank beyond it raise more', () => {
    const tapOf = (feeder: Feeder) =>
      solved(feeder, { taps: 'controlled' }).regulators.find(({ id }) => id === 'FAR')?.taps.A ?? 0
    expect(tapOf(line([{ ...near, ...bypassed }, far]))).toBeGreaterThan(tapOf(line([near, far])))
  })

  it('does not move where a position is asked of it', () => {
    const feeder = line([{ ...near, ...bypassed }])
    const held = puAt(feeder, { taps: 'fixed', fixedTaps: { NEAR: { A: 16 } } }, 'P3')
    expect(held).toBe(puAt(line([]), { taps: 'fixed' }, 'P3'))
  })

  it('leaves its place to another bank on trial at the same span', () => {
    const trial = { ...near, id: 'TRIAL', tapA: 10 }
    const extraBanks = [line([trial]).equipment[0]].filter((item) => item?.kind === 'regulator')
    const feeder = line([{ ...near, ...bypassed }])
    expect(puAt(feeder, { taps: 'fixed', extraBanks }, 'P3')).toBe(
      puAt(line([trial]), { taps: 'fixed' }, 'P3'),
    )
  })

  it('is in service where its record says so, or says nothing', () => {
    const said = line([{ ...near, state: 'in service' }])
    expect(puAt(said, { taps: 'fixed' }, 'P3')).toBe(puAt(line([near]), { taps: 'fixed' }, 'P3'))
    expect(solved(said, { taps: 'fixed' }).regulators).toHaveLength(1)
  })
})
