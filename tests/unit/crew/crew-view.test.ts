import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type CrewView, crewViewOf, viewText } from '../../../web/crew/crew-view.ts'

describe('the part of the crew’s desk in the address', () => {
  it('is read as links write it', () => {
    expect(crewViewOf(null)).toEqual({ part: 'jobs' })
    expect(crewViewOf('pole finder')).toEqual({ part: 'pole finder' })
    expect(crewViewOf('outbox')).toEqual({ part: 'outbox' })
    expect(crewViewOf('job:j-1')).toEqual({ part: 'job', jobId: 'j-1' })
    expect(crewViewOf('job:j-1:steps:S-145')).toEqual({
      part: 'steps',
      jobId: 'j-1',
      poleId: 'S-145',
    })
    expect(crewViewOf('job:j-1:as-left')).toEqual({ part: 'as-left', jobId: 'j-1' })
  })

  it('is the jobs where it means nothing here, and the job where its rest is cut off', () => {
    expect(crewViewOf('add')).toEqual({ part: 'jobs' })
    expect(crewViewOf('job:')).toEqual({ part: 'jobs' })
    expect(crewViewOf('job:j-1:steps')).toEqual({ part: 'job', jobId: 'j-1' })
    expect(crewViewOf('job:j-1:steps:S%')).toMatchObject({ part: 'steps', poleId: 'S%' })
  })

  it('is the same after it was written, whatever the ids', () => {
    const id = fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9._:-]{0,20}$/)
    const view: fc.Arbitrary<CrewView> = fc.oneof(
      fc.constantFrom<CrewView>({ part: 'jobs' }, { part: 'pole finder' }, { part: 'outbox' }),
      fc.record({ part: fc.constant('job' as const), jobId: id }),
      fc.record({ part: fc.constant('as-left' as const), jobId: id }),
      fc.record({ part: fc.constant('steps' as const), jobId: id, poleId: id }),
    )
    fc.assert(
      fc.property(view, (given) => {
        expect(crewViewOf(viewText(given))).toEqual(given)
      }),
    )
  })
})
