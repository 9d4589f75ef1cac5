import { describe, expect, test } from 'vitest'
import { compileNetwork } from '#domain/electrical/compile-network.ts'
import { compileJudge, judgeLimits } from '#domain/siting/limit-judge.ts'
import { type SampleParts, sampleFeeder, straightLine } from './sample-feeder.ts'

const LIMITS = { lowVolts120: 118, highVolts120: 126 }

/** Judges a line of three poles where all voltages are 1 pu but the ones given by pole and phase. */
function judged(loads: SampleParts['loads'], odd: Record<string, number>) {
  const feeder = sampleFeeder({ ...straightLine(3, 100), loads })
  const compiled = compileNetwork(feeder)
  if (compiled.status !== 'compiled') throw new Error('Expected a feeder without errors.')
  const { network } = compiled
  const judge = compileJudge(feeder, network, LIMITS)
  const pu = new Float64Array(network.nodeCount * 3).fill(1)
  for (const [place, value] of Object.entries(odd)) {
    const [id, phase = 'A'] = place.split(' ')
    pu[network.nodeIds.indexOf(id ?? '') * 3 + 'ABC'.indexOf(phase)] = value
  }
  const all = judge.weight.reduce((sum, weight) => sum + weight, 0)
  return { ...judgeLimits(judge, pu), all, network }
}

describe('Counting customers outside limits', () => {
  test('a single-phase customer counts on its own phase only', () => {
    const loads = [{ id: 'l', pole: 'p2', kwB: 5, customers: 3 }]
    expect(judged(loads, { 'p2 A': 0.9, 'p2 C': 1.2 }).outside).toBe(0)
    expect(judged(loads, { 'p2 B': 0.98 }).outside).toBe(3)
    expect(judged(loads, { 'p2 B': 1.051 }).outside).toBe(3)
  })

  test('a three-phase customer counts when any phase is outside, and once', () => {
    const loads = [{ id: 'l', pole: 'p2', kwA: 5, kwB: 5, kwC: 5, customers: 1 }]
    expect(judged(loads, { 'p2 C': 0.97 }).outside).toBe(1)
    expect(judged(loads, { 'p2 A': 0.97, 'p2 B': 1.1, 'p2 C': 0.97 }).outside).toBe(1)
  })

  test('a load between two phases counts on both', () => {
    const loads = [{ id: 'l', pole: 'p1', connection: 'delta' as const, kwBc: 5, customers: 2 }]
    expect(judged(loads, { 'p1 C': 0.97 }).outside).toBe(2)
    expect(judged(loads, { 'p1 A': 0.97 }).outside).toBe(0)
  })

  test('customers along a span count at its far end and at the point within it', () => {
    const loads = [{ id: 'l', span: 'p1:p2', kwA: 5, customers: 4 }]
    expect(judged(loads, { 'p2 A': 0.97 }).outside).toBe(4)
    expect(judged(loads, { 'p1:p2:quarter A': 0.97 }).outside).toBe(4)
    expect(judged(loads, { 'p1 A': 0.97 }).outside).toBe(0)
  })

  test('customers whose load is not known count on every phase of their pole', () => {
    const loads = [{ id: 'l', pole: 'p1', customers: 7 }]
    expect(judged(loads, { 'p1 B': 0.97 }).outside).toBe(7)
  })

  test('a voltage on the limit is inside', () => {
    const loads = [{ id: 'l', pole: 'p2', kwA: 5, customers: 1 }]
    expect(judged(loads, { 'p2 A': 118 / 120 }).outside).toBe(0)
    expect(judged(loads, { 'p2 A': 126 / 120 }).outside).toBe(0)
  })

  test('without customers on record each load is one', () => {
    const loads = [
      { id: 'l', pole: 'p1', kwA: 5 },
      { id: 'm', pole: 'p2', kwA: 5 },
    ]
    expect(judged(loads, { 'p2 A': 0.9 })).toMatchObject({ outside: 1, all: 2 })
  })

  test('lowest and highest are those of poles, with their phase', () => {
    const loads = [{ id: 'l', span: 'p1:p2', kwA: 5, customers: 4 }]
    const verdict = judged(loads, { 'p1 C': 0.95, 'p2 B': 1.04, 'p1:p2:quarter A': 0.5 })
    expect(verdict.lowestSlot).toBe(verdict.network.nodeIds.indexOf('p1') * 3 + 2)
    expect(verdict.highestSlot).toBe(verdict.network.nodeIds.indexOf('p2') * 3 + 1)
  })
})
