import { describe, expect, it } from 'vitest'
import { pickPart } from '../../../web/coordinator/finds/pick-part.ts'

const none = { suspectedPartA: '', suspectedPartB: '' }

describe('choosing the suspected pair on the drawing', () => {
  it('takes the first two parts that are pressed', () => {
    const one = pickPart(none, 'cutout-A')
    expect(one).toEqual({ suspectedPartA: 'cutout-A', suspectedPartB: '' })
    expect(pickPart(one, 'arm')).toEqual({ suspectedPartA: 'cutout-A', suspectedPartB: 'arm' })
  })

  it('lets go of a part that is pressed again', () => {
    const both = { suspectedPartA: 'cutout-A', suspectedPartB: 'arm' }
    expect(pickPart(both, 'cutout-A')).toEqual({ suspectedPartA: 'arm', suspectedPartB: '' })
    expect(pickPart(both, 'arm')).toEqual({ suspectedPartA: 'cutout-A', suspectedPartB: '' })
  })

  it('keeps the last two where a third is pressed', () => {
    const both = { suspectedPartA: 'cutout-A', suspectedPartB: 'arm' }
    expect(pickPart(both, 'neutral')).toEqual({ suspectedPartA: 'arm', suspectedPartB: 'neutral' })
  })

  it('fills the place of the first where only the second is said', () => {
    expect(pickPart({ suspectedPartA: '', suspectedPartB: 'arm' }, 'neutral')).toEqual({
      suspectedPartA: 'neutral',
      suspectedPartB: 'arm',
    })
  })
})
