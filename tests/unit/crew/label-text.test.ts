import { describe, expect, it } from 'vitest'
import { readLabel } from '../../../web/crew/scan/label-text.ts'

describe('the text of a label', () => {
  it('that is a link opens what the link names, whatever host it was printed for', () => {
    expect(readLabel('https://old.example/?feeder=skillet&person=crew&pole=S-145')).toEqual({
      kind: 'pole',
      poleId: 'S-145',
      feederId: 'skillet',
    })
    expect(readLabel('http://192.0.2.7:8080/?feeder=skillet&pole=S-1&view=job%3Aj-1')).toEqual({
      kind: 'job',
      jobId: 'j-1',
      feederId: 'skillet',
    })
  })

  it('that is a bare id is a pole of whatever feeder has it', () => {
    expect(readLabel(' S-145\n')).toEqual({ kind: 'pole', poleId: 'S-145', feederId: null })
  })

  it('that is something else is told, and never followed', () => {
    expect(readLabel('https://elsewhere.example/prize')).toEqual({
      kind: 'other',
      words: 'The label leads to elsewhere.example, and names no pole and no job.',
    })
    expect(readLabel('javascript:alert(1)')).toMatchObject({ kind: 'other' })
    expect(readLabel('https://h.example/?pole=<b>&feeder=../x')).toMatchObject({ kind: 'other' })
    expect(readLabel(`text ${'x'.repeat(200)}`)).toMatchObject({ kind: 'other' })
  })
})
