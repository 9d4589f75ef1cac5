import { describe, expect, it } from 'vitest'
import { Pole } from '#domain/feeder/pole.ts'
import { labelLeads } from '../../../web/crew/scan/label-leads.ts'

const feeder = (id: string, ...poles: string[]) => ({
  header: { id, name: id },
  poles: poles.map((pole) => Pole.parse({ id: pole, at: [-107, 43] })),
})
const known = [feeder('creek', 'P-1', 'P-2'), feeder('mesa', 'P-2')]
const pole = (poleId: string, feederId: string | null = null) =>
  labelLeads({ kind: 'pole', poleId, feederId }, known, [{ id: 'far' }])

describe('a label', () => {
  it('with a bare id leads to the only feeder that has such a pole', () => {
    expect(pole('P-1')).toEqual({ to: 'pole', poleId: 'P-1', feederId: 'creek' })
  })

  it('with an id of two feeders asks which', () => {
    expect(pole('P-2')).toMatchObject({ to: 'choice', among: [{ id: 'creek' }, { id: 'mesa' }] })
  })

  it('of a feeder that can be opened leads there, though its poles are not known yet', () => {
    expect(pole('X-9', 'far')).toEqual({ to: 'pole', poleId: 'X-9', feederId: 'far' })
  })

  it('of a pole or a feeder that is not here says so', () => {
    expect(pole('X-9')).toMatchObject({ to: 'nothing' })
    expect(pole('P-1', 'gone')).toEqual({
      to: 'nothing',
      words: 'The label is of feeder gone, which is not here.',
    })
  })

  it('of a job leads to it, with or without its feeder', () => {
    const job = { kind: 'job', jobId: 'j-1' } as const
    expect(labelLeads({ ...job, feederId: null }, known, [])).toMatchObject({ to: 'job' })
    expect(labelLeads({ ...job, feederId: 'gone' }, known, [])).toMatchObject({ to: 'nothing' })
  })
})
