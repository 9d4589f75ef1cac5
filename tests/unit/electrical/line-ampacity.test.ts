import { describe, expect, it } from 'vitest'
import { lineAmpacityA } from '#domain/electrical/line-ampacity.ts'
import { LineType } from '#domain/feeder/line-type.ts'
import { plainLineType } from '../../support/feeder-sketch.ts'

const wire = (role: 'A' | 'B' | 'N', conductor: string, xM: number) => ({
  role,
  xM,
  heightM: 9,
  conductor,
})

// Kersting, Distribution System Modeling and Analysis, appendix A (from memory): 4/0 6/1 ACSR 340 A,
// 1/0 6/1 ACSR 230 A.
describe('the current limit of a line type', () => {
  const of = (changes: object) =>
    lineAmpacityA(
      LineType.parse({
        id: 'line',
        name: 'Line',
        kind: 'geometry',
        positions: [
          wire('A', '4/0 6/1 ACSR', 0),
          wire('B', '4/0 6/1 ACSR', 1),
          wire('N', '1/0 6/1 ACSR', 2),
        ],
        ...changes,
      }),
    )

  it('is that of its weakest phase conductor in the table, whatever the neutral carries', () => {
    expect(of({})).toBe(340)
    expect(of({ positions: [wire('A', '4/0 6/1 ACSR', 0), wire('B', '1/0 6/1 ACSR', 1)] })).toBe(
      230,
    )
  })

  it('is the recorded one where there is one', () => {
    expect(of({ ampacityA: 300 })).toBe(300)
  })

  it('is not known where neither the record nor the table has one', () => {
    expect(of({ positions: [wire('A', '795 37 AAC', 0)] })).toBeNaN()
    expect(lineAmpacityA(LineType.parse(plainLineType('plain', 0.3, 0.6)))).toBeNaN()
  })
})
