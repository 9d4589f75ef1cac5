import { describe, expect, it } from 'vitest'
import { lineVoltsInWords } from '#domain/units/rounded-volts.ts'
import { samplePlan } from './sample-plan.ts'

describe('volts as crews read them', () => {
  it.each([
    [14_399.2, '14,400 V'],
    [7200, '7,200 V'],
    [1004.9, '1,000 V'],
    [842.6, '843 V'],
  ])('%d V are told as %s', (volts, words) => {
    expect(lineVoltsInWords(volts)).toBe(words)
  })

  it('are told no finer than to ten in what a plan says of a line', () => {
    const plan = samplePlan('set a bank')
    const said = [
      ...plan.notes,
      ...plan.hazards.map(({ what }) => what),
      ...plan.mistakes.flatMap(({ signs }) => signs),
    ].join('\n')
    const told = [...said.matchAll(/(\d{1,3}(?:,\d{3})+|\d{4,}) V\b/g)].map(([, volts = '']) =>
      Number(volts.replaceAll(',', '')),
    )
    expect(told.length).toBeGreaterThan(3)
    expect(told.filter((volts) => volts % 10 !== 0)).toEqual([])
  })
})
