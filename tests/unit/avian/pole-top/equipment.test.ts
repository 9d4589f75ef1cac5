import { describe, expect, it } from 'vitest'
import { contactPairs, pairId } from '../../../../server/domain/avian/pole-top/contact-pairs.ts'
import { pairInWords } from '../../../../server/domain/avian/pole-top/pair-words.ts'
import { birdSpecies, sizeOf } from '../../../../server/domain/avian/species/shipped-species.ts'
import { countOf, partOf, regulator, topOf, transformer } from './site-of.ts'

const S_BUSHING = /^[ABC]-phase regulator S bushing$/

describe('a regulator bank of three single-phase units', () => {
  const top = topOf({ framing: 'tangent, 10 ft arm, regulator platform', equipment: [regulator()] })

  // Parts of a bank: common practice, no source; the count follows from three single-phase units.
  it.each([
    [/^[ABC]-phase regulator S bushing$/, 3],
    [/^[ABC]-phase regulator L bushing$/, 3],
    [/^[ABC]-phase regulator SL bushing$/, 3],
    [/ series arrester$/, 3],
    [/ (source|load) arrester top$/, 6],
    [/ bypass switch$/, 3],
    [/regulator tank$/, 3],
    [/regulator platform$/, 1],
  ])('has as many %s as it should', (label, count) => {
    expect(countOf(top, label)).toBe(count)
  })

  it('has at least six jumpers', () => {
    const jumpers = top.parts
      .filter(({ kind }) => kind === 'jumper')
      .map(({ id }) => id.replace(/-\d+$/, ''))
    expect(new Set(jumpers).size).toBeGreaterThanOrEqual(6)
  })

  it('has the neutral on SL in wye', () => {
    for (const phase of ['A', 'B', 'C'])
      expect(partOf(top, `R-${phase}-sl`).potential).toBe('grounded')
  })

  it('has the next phase on SL in closed delta', () => {
    const delta = topOf({
      equipment: [regulator()],
      choice: { regulatorConnection: 'closed delta' },
    })
    const otherEnds = ['A', 'B', 'C'].map((phase) => partOf(delta, `R-${phase}-sl`).potential)
    expect(otherEnds).toEqual(['B', 'C', 'A'])
  })

  it('has two units in open delta, with the phase between them on both SL', () => {
    const delta = topOf({ equipment: [regulator()], choice: { regulatorConnection: 'open delta' } })
    expect(countOf(delta, S_BUSHING)).toBe(2)
    expect(['A', 'C'].map((phase) => partOf(delta, `R-${phase}-sl`).potential)).toEqual(['B', 'B'])
  })

  it('hangs around the pole without a platform where a person says so', () => {
    const hung = topOf({ equipment: [regulator()], choice: { regulatorMounting: 'on the pole' } })
    expect(countOf(hung, /platform/)).toBe(0)
    expect(countOf(hung, S_BUSHING)).toBe(3)
  })
})

describe('equipment that belongs together', () => {
  it('feeds a transformer once, by way of its cutout and its arrester', () => {
    const top = topOf({
      framing: 'single-phase pole top',
      phases: 'A',
      equipment: transformer('A'),
    })
    expect(partOf(top, 'CO-A-lead-1').from).toEqual([
      0,
      expect.any(Number),
      partOf(top, 'A-conductor').from[2],
    ])
    expect(partOf(top, 'CO-A-lead-2').to).toEqual(partOf(top, 'CO-A-top').from)
    expect(partOf(top, 'T-A-lead-1').from).toEqual(partOf(top, 'CO-A-bottom').from)
    expect(partOf(top, 'T-A-lead-1').to).toEqual(partOf(top, 'LA-A-top').from)
    expect(partOf(top, 'T-A-lead-2').to).toEqual(partOf(top, 'T-A-bushing').from)
    expect(countOf(top, /jumper to cutout/)).toBe(2)
    expect(countOf(top, /jumper to transformer/)).toBe(2)
  })

  it('draws a fuse of the line and its recorded cutout as one', () => {
    const fused = (equipment: object[]) =>
      topOf({ framing: 'tangent, 8 ft arm, tap', tap: 'A', equipment })
    const fuse = { id: 'F', kind: 'fuse', phases: 'A', span: 'S' }
    expect(countOf(fused([fuse]), /cutout top/)).toBe(1)
    expect(countOf(fused([fuse, { id: 'CO', kind: 'cutout', phases: 'A' }]), /cutout top/)).toBe(1)
    expect(countOf(fused([fuse, ...transformer('A')]), /cutout top/)).toBe(2)
  })

  it('takes the cable of a transformer’s service for one without a live end on the pole', () => {
    const riser = { id: 'RI', kind: 'riser', phases: 'A' }
    expect(
      countOf(topOf({ phases: 'A', equipment: [...transformer('A'), riser] }), /terminator/),
    ).toBe(0)
    expect(countOf(topOf({ phases: 'A', equipment: [riser] }), /terminator top/)).toBe(1)
  })

  it('brings bushings on either side of a recloser and on each unit of a capacitor bank', () => {
    const recloser = topOf({
      equipment: [{ id: 'RC', kind: 'recloser', phases: 'ABC', span: 'S' }],
    })
    expect(countOf(recloser, /recloser (source|load) bushing/)).toBe(6)
    const bank = topOf({ equipment: [{ id: 'CB', kind: 'capacitor', phases: 'ABC' }] })
    expect(countOf(bank, /capacitor bushing$/)).toBe(3)
    expect(partOf(bank, 'CB-A-neutral').potential).toBe('grounded')
  })

  it('leads a tap off to the side by its own dead-ends, from each tapped phase', () => {
    const top = topOf({ framing: 'tangent, 8 ft arm, tap', tap: 'AC' })
    expect(countOf(top, /tap dead-end clamp/)).toBe(2)
    expect(partOf(top, 'tap-A-jumper-2').to[0]).toBeGreaterThan(partOf(top, 'tap-A-clamp').from[0])
  })
})

describe('words for a pair', () => {
  it('say the bird, the two parts and the gap as a line worker would', () => {
    const hawk = birdSpecies().find(({ id }) => id === 'red-tailed-hawk')
    if (!hawk) throw new Error('Expected the red-tailed hawk to be listed.')
    const { parts } = topOf({
      framing: 'single-phase pole top',
      phases: 'A',
      equipment: transformer('A'),
    })
    const pairs = contactPairs(parts, sizeOf(hawk))
    const words = pairs.map((pair) => pairInWords(pair, hawk.name, true))
    const cutout = pairs.find((pair) => pairId(pair) === 'CO-A-bracket~CO-A-top')
    const wholeIn = Math.floor((cutout?.distanceM ?? 0) / 0.0254)
    expect(words).toContain(`red-tailed hawk: A-phase cutout top to bracket, ${wholeIn} in`)
    expect(words.every((each) => /^red-tailed hawk: .+ to .+, \d+ in$/.test(each))).toBe(true)
  })
})
