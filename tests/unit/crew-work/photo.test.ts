import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { offPoleWords } from '../../../web/crew/work/photos/off-pole-words.ts'
import { instantOf, photoFacts } from '../../../web/crew/work/photos/photo-facts.ts'
import { photoFault } from '../../../web/crew/work/photos/photo-fault.ts'
import { wayTo } from '../../../web/jobs/places/bearing.ts'
import { photo } from '../../support/sample-files.ts'

const blobOf = (bytes: Buffer) => new Blob([new Uint8Array(bytes)])

describe('a photo', () => {
  it('says where it was taken, by its degrees, minutes and seconds', async () => {
    // 43° 1′ 23.30″ N, 107° 2′ 11.10″ W, written by sharp.
    const { takenPosition } = await photoFacts(blobOf(await photo('jpeg')))
    expect(takenPosition?.[0]).toBeCloseTo(-(107 + 2 / 60 + 11.1 / 3600), 6)
    expect(takenPosition?.[1]).toBeCloseTo(43 + 1 / 60 + 23.3 / 3600, 6)
  })

  it('without place and time says neither, as does a file that is none', async () => {
    const bare = await sharp({ create: { width: 4, height: 4, channels: 3, background: 'red' } })
      .jpeg()
      .toBuffer()
    expect(await photoFacts(blobOf(bare))).toEqual({})
    expect(await photoFacts(new Blob(['not a picture']))).toEqual({})
  })

  it('says when it was taken, in the zone that stands beside it', async () => {
    const exif = {
      IFD2: { DateTimeOriginal: '2026:11:20 08:15:30', OffsetTimeOriginal: '-07:00' },
    }
    const dated = await sharp({ create: { width: 4, height: 4, channels: 3, background: 'red' } })
      .withExif(exif)
      .jpeg()
      .toBuffer()
    expect((await photoFacts(blobOf(dated))).takenAt).toBe('2026-11-20T15:15:30.000Z')
    expect(instantOf({ DateTimeOriginal: 'yesterday' })).toBeNull()
    expect(instantOf({ DateTimeOriginal: '2026:13:40 08:15:30' })).toBeNull()
  })

  it('taken a thousandth of a degree north of the pole was taken about 111 m from it', () => {
    // A degree along a meridian of the mean earth (6371.0088 km) is 111.195 km.
    expect(wayTo([-107, 43], [-107, 43.001]).distanceM).toBeCloseTo(111.195, 1)
  })

  it('is told how far from the pole it was taken, and asked about where that is far', () => {
    expect(offPoleWords(4, 'metric')).toBe('Taken 4 m from the pole.')
    expect(offPoleWords(35, 'metric')).toContain('Taken 35 m from the pole; the device')
    expect(offPoleWords(3000, 'us')).toContain('Taken 1.86 mi from the pole: is it of this pole?')
    expect(offPoleWords(undefined, 'us')).toBe('The picture does not say where it was taken.')
  })

  it('that is too large, of another kind or a report is refused in plain words', () => {
    const file = { name: 'a.jpg', type: 'image/jpeg', size: 1000 }
    expect(photoFault(file)).toBeNull()
    expect(photoFault({ ...file, size: 26 * 1024 * 1024 })).toContain('26 MB')
    expect(photoFault({ ...file, type: 'image/heic' })).toContain('HEIC')
    expect(photoFault({ ...file, type: 'application/pdf' })).toContain('a report, not a photo')
  })
})
