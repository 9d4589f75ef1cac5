import { array, check, constantFrom, double, property } from 'fast-check'
import { describe, expect, it } from 'vitest'
import { spreadLabels } from '../../../web/birds/spread-labels.ts'

describe('labels beside the drawing', () => {
  it('stay where they want to be when there is room', () => {
    expect(spreadLabels([200, 50], 24, 12, 400)).toEqual([200, 50])
  })

  it('move apart evenly when they want the same place', () => {
    expect(spreadLabels([100, 100, 100], 20, 0, 400)).toEqual([80, 100, 120])
  })

  it('never overlap, never leave the drawing, and keep their order, whatever they want', () => {
    const outcome = check(
      property(
        array(double({ min: -100, max: 700, noNaN: true }), { minLength: 1, maxLength: 12 }),
        constantFrom(16, 24),
        (wanted, step) => {
          const [from, to] = [12, 500]
          const placed = spreadLabels(wanted, step, from, to)
          const order = wanted.map((_, index) => index).sort((a, b) => wanted[a]! - wanted[b]!)
          const downward = order.map((index) => placed[index]!)
          expect(Math.min(...placed)).toBeGreaterThanOrEqual(from - 1e-6)
          expect(Math.max(...placed)).toBeLessThanOrEqual(to + 1e-6)
          for (let at = 1; at < downward.length; at++) {
            expect(downward[at]! - downward[at - 1]!).toBeGreaterThanOrEqual(step - 1e-6)
          }
        },
      ),
    )
    expect(outcome.failed, String(outcome.errorInstance)).toBe(false)
  })
})
