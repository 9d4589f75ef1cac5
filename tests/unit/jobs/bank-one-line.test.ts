import { describe, expect, it } from 'vitest'
import { type BankOneLine, bankOneLine, type OneLineBranch } from '#domain/jobs/bank-one-line.ts'

/** Points that conducting branches reach from one of them. */
function reached(
  { branches }: BankOneLine,
  from: string,
  conducts: (branch: OneLineBranch) => boolean,
): Set<string> {
  const seen = new Set([from])
  for (const point of seen) {
    for (const branch of branches.filter(conducts)) {
      if (branch.from === point) seen.add(branch.to)
      if (branch.to === point) seen.add(branch.from)
    }
  }
  return seen
}

const isArrester = ({ kind }: OneLineBranch) => kind === 'arrester' || kind === 'series arrester'

describe('the one-line drawing of a bank', () => {
  const drawing = bankOneLine({ phases: 'ABC', neutralSide: 'switched' })

  it('carries the line through each unit in service, and through nothing else', () => {
    for (const phase of ['A', 'B', 'C']) {
      const inService = (branch: OneLineBranch) => branch.stands !== 'open' && !isArrester(branch)
      expect(reached(drawing, `${phase}-source`, inService)).toContain(`${phase}-load`)
      const without = (branch: OneLineBranch) =>
        inService(branch) && branch.kind !== 'regulator unit'
      expect(reached(drawing, `${phase}-source`, without)).not.toContain(`${phase}-load`)
    }
  })

  it('carries the line past each unit where the bank stands bypassed, and leaves it no way in', () => {
    for (const neutralSide of ['solid', 'switched'] as const) {
      const bypassed = bankOneLine({ phases: 'ABC', state: 'bypassed', neutralSide })
      const conducts = (branch: OneLineBranch) => branch.stands !== 'open' && !isArrester(branch)
      for (const phase of ['A', 'B', 'C']) {
        const points = reached(bypassed, `${phase}-source`, conducts)
        expect(points).toContain(`${phase}-load`)
        expect(points).not.toContain(`${phase}-s`)
        expect(points).not.toContain(`${phase}-l`)
        const fromSl = reached(bypassed, `${phase}-sl`, conducts)
        expect(fromSl.has(`${phase}-neutral`)).toBe(neutralSide === 'solid')
      }
    }
  })

  it('joins no phase to another', () => {
    const points = reached(drawing, 'A-source', () => true)
    expect([...points].every((point) => point.startsWith('A-'))).toBe(true)
  })

  it('has a bypass, two disconnects and three arresters for each unit', () => {
    const count = (kind: OneLineBranch['kind']) =>
      drawing.branches.filter((branch) => branch.kind === kind).length
    expect(count('regulator unit')).toBe(3)
    expect(count('bypass switch')).toBe(3)
    expect(count('source switch') + count('load switch')).toBe(6)
    expect(count('arrester') + count('series arrester')).toBe(9)
    expect(count('neutral-side switch')).toBe(3)
  })

  it('has a solid neutral lead where no switch is fitted', () => {
    const solid = bankOneLine({ phases: 'AC' })
    expect(solid.branches.some(({ kind }) => kind === 'neutral-side switch')).toBe(false)
    expect(solid.branches.find(({ to }) => to === 'C-neutral')?.kind).toBe('conductor')
  })

  it('has every point in a place of its own within the grid', () => {
    const places = drawing.nodes.map(({ column, row }) => `${column}/${row}`)
    expect(new Set(places).size).toBe(places.length)
    for (const { column, row } of drawing.nodes) {
      expect(column).toBeLessThan(drawing.columns)
      expect(row).toBeLessThan(drawing.rows)
    }
    const ids = new Set(drawing.nodes.map(({ id }) => id))
    for (const { from, to } of drawing.branches) {
      expect(ids).toContain(from)
      expect(ids).toContain(to)
    }
  })
})
