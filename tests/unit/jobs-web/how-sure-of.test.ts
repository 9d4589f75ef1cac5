import { describe, expect, it } from 'vitest'
import { approachDistance } from '#domain/jobs/approach-distance.ts'
import { howSureOf } from '../../../web/jobs/how-sure-of.ts'

describe('how sure a hazard of the plan is', () => {
  it('is no more than its source says of itself', () => {
    expect(howSureOf('common practice, no source')).toBe('common practice, no source')
    expect(howSureOf('29 CFR 1910.269(c), from memory')).toBe('from memory')
    expect(howSureOf('an assumption; the utility’s own figure replaces it')).toBe('assumption')
    expect(howSureOf('Power flow of the feeder')).toBe('computed')
    expect(howSureOf('')).toBe('assumption')
  })

  it('does not call an approach distance published that was seen second hand', () => {
    const found = approachDistance({ systemKv: 12.47, exposure: 'phase to phase' })
    expect(found.status === 'known' && howSureOf(found.source)).toBe('seen second hand')
  })
})
