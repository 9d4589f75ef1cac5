import { describe, expect, it } from 'vitest'
import { BirdSettings, BufferSet } from '#domain/avian/bird-settings.ts'
import { nestBuffer, SHIPPED_BUFFER_SETS } from '#domain/avian/nests/buffer-sets.ts'
import { nestAt } from '../bird-feeder.ts'

const settings = (changes: Partial<BirdSettings>) => BirdSettings.parse(changes)
const nestOf = (species: string) => nestAt([-107, 43], { species })

describe('the buffer of a nest', () => {
  it('is half a mile for a golden eagle in Colorado, 15 December to 15 July (DRMS 948905, table 10)', () => {
    const buffer = nestBuffer(nestOf('golden eagle'), settings({ bufferSetId: 'colorado' }))
    expect(buffer).toMatchObject({ from: '12-15', to: '07-15', sureness: 'published' })
    expect(buffer.distanceM).toBeCloseTo(804.672, 6)
    expect(buffer.source).toContain('DRMS 948905')
  })

  it('is 660 ft for a bald eagle by the national guidance', () => {
    const set = settings({ bufferSetId: 'bald-eagle-mid-atlantic' })
    expect(nestBuffer(nestOf('Bald Eagle'), set).distanceM).toBeCloseTo(201.168, 6)
  })

  it('is found in any case and with either apostrophe', () => {
    const set = settings({ bufferSetId: 'colorado' })
    for (const species of ["swainson's hawk", 'SWAINSON’S HAWK', "Swainson's  Hawk"]) {
      expect(nestBuffer(nestOf(species), set)).toMatchObject({ from: '04-01', to: '07-15' })
    }
    expect(nestBuffer(nestOf('red tailed hawk'), set).from).toBe('02-15')
  })

  it('says which row of Colorado and that all of Utah is from memory', () => {
    const colorado = settings({ bufferSetId: 'colorado' })
    expect(nestBuffer(nestOf('Ferruginous hawk'), colorado).sureness).toBe('from memory')
    const utah = SHIPPED_BUFFER_SETS.find(({ id }) => id === 'utah-2002')
    expect(new Set(utah?.rules.map(({ sureness }) => sureness))).toEqual(new Set(['from memory']))
  })

  it('is the one recorded with the nest where no set is chosen or none has the species', () => {
    const own = { distanceM: 500, from: '03-01', to: '06-30', sureness: 'assumption' }
    const nest = nestAt([-107, 43], {
      species: 'great horned owl',
      bufferM: 500,
      seasonFrom: '03-01',
      seasonTo: '06-30',
    })
    expect(nestBuffer(nest)).toMatchObject(own)
    expect(nestBuffer(nest, settings({ bufferSetId: 'colorado' }))).toMatchObject(own)
    expect(nestBuffer(nest, settings({ bufferSetId: 'gone' }))).toMatchObject(own)
  })

  it('recorded as a shipped row has it is as sure as that row', () => {
    expect(nestBuffer(nestAt([-107, 43], { bufferM: 805 })).sureness).toBe('published')
    expect(nestBuffer(nestAt([-107, 43], { bufferM: 900 })).sureness).toBe('assumption')
  })

  it('comes from a set that the utility entered before a shipped one', () => {
    const entered: BufferSet = {
      id: 'ours',
      region: 'Our territory',
      source: 'Letter of the agency',
      sourceDate: '2027-01-10',
      rules: [
        {
          species: 'golden eagle',
          distanceM: 1000,
          from: '01-01',
          to: '08-15',
          sureness: 'published',
        },
      ],
    }
    const buffer = nestBuffer(
      nestOf('Golden eagle'),
      settings({ bufferSetId: 'ours', bufferSets: [entered] }),
    )
    expect(buffer).toMatchObject({ distanceM: 1000, to: '08-15' })
    expect(buffer.source).toBe('Our territory: Letter of the agency (2027-01-10)')
  })

  it('of every shipped row is of the form that the settings take', () => {
    for (const set of SHIPPED_BUFFER_SETS) expect(BufferSet.parse(set)).toEqual(set)
  })
})
