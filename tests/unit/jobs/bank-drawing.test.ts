import { describe, expect, it } from 'vitest'
import { bankOneLine } from '#domain/jobs/bank-one-line.ts'
import { placedOneLine } from '../../../web/jobs/placed-one-line.ts'

const drawing = placedOneLine(bankOneLine({ phases: 'ABC' }))

describe('the one-line drawing of a bank', () => {
  it('has every point inside, and no two on one place', () => {
    const places = drawing.nodes.map(({ x, y }) => `${x} ${y}`)
    expect(new Set(places).size).toBe(places.length)
    for (const { x, y } of drawing.nodes) {
      expect(x).toBeGreaterThan(0)
      expect(x).toBeLessThan(drawing.widthPx)
      expect(y).toBeGreaterThan(0)
      expect(y).toBeLessThan(drawing.heightPx)
    }
  })

  it('draws every branch straight, across or down', () => {
    expect(drawing.branches.length).toBe(bankOneLine({ phases: 'ABC' }).branches.length)
    for (const { from, to } of drawing.branches) {
      expect(from.x === to.x).not.toBe(from.y === to.y)
    }
  })

  it('shows for each unit a bypass that stands open around two closed disconnect switches', () => {
    for (const phase of ['A', 'B', 'C']) {
      const own = drawing.branches.filter(({ branch }) => branch.phase === phase)
      const stands = (kind: string) =>
        own.filter(({ branch }) => branch.kind === kind).map(({ branch }) => branch.stands)
      expect(stands('bypass switch')).toEqual(['open'])
      expect(stands('source switch')).toEqual(['closed'])
      expect(stands('load switch')).toEqual(['closed'])
    }
  })

  it('brings the neutral side of a unit out below it', () => {
    const units = drawing.branches.filter(({ branch }) => branch.kind === 'regulator unit')
    expect(units).toHaveLength(3)
    for (const { from, to, foot } of units) {
      expect(foot?.x).toBe((from.x + to.x) / 2)
      expect(foot?.y).toBeGreaterThan(from.y)
    }
  })
})
