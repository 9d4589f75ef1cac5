import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Position } from '#domain/feeder/geometry.ts'
import { wayTo } from '../../../web/jobs/places/bearing.ts'
import { notationsOf, parseCoordinates } from '../../../web/jobs/places/coordinates.ts'
import { decimalDegrees, degreesMinutesSeconds } from '../../../web/jobs/places/degrees.ts'
import { parseUsng, usngText } from '../../../web/jobs/places/usng.ts'
import { utmOf, utmText } from '../../../web/jobs/places/utm.ts'

const dms = (degrees: number, minutes: number, seconds: number): number =>
  degrees + minutes / 60 + seconds / 3600

function read(text: string): Position {
  const parsed = parseCoordinates(text)
  if (parsed.kind !== 'position') throw new Error(`"${text}" gave ${JSON.stringify(parsed)}`)
  return parsed.at
}

const problemOf = (text: string): string => {
  const parsed = parseCoordinates(text)
  return parsed.kind === 'unreadable' ? parsed.problem : parsed.kind
}

describe('UTM', () => {
  it('puts the CN Tower at 17 T 630084 E 4833438 N (widely published example, from memory)', () => {
    const utm = utmOf([-dms(79, 23, 13.7), dms(43, 38, 33.24)])
    expect(utm?.zone).toBe(17)
    expect(utm?.band).toBe('T')
    expect(Math.abs((utm?.eastingM ?? 0) - 630_084)).toBeLessThan(1)
    expect(Math.abs((utm?.northingM ?? 0) - 4_833_438)).toBeLessThan(1)
  })

  it('has easting 500000 on a central meridian and northing 0 on the equator (definition of UTM)', () => {
    const utm = utmOf([-105, 0])
    expect(utm?.eastingM).toBeCloseTo(500_000, 6)
    expect(utm?.northingM).toBeCloseTo(0, 6)
  })

  it('is read back as typed by hand, with or without unit letters', () => {
    for (const text of [
      '17 T 630084 4833438',
      '17T 630084mE 4833438mN',
      '17 t 630084 E, 4833438 N',
    ]) {
      const at = read(text)
      expect(wayTo(at, [-dms(79, 23, 13.7), dms(43, 38, 33.24)]).distanceM).toBeLessThan(1.5)
    }
  })

  it('takes the letter S for the southern half where the northing lies in no band S', () => {
    expect(read('56 S 334873 6252266')[1]).toBeCloseTo(-33.86, 2)
  })

  it('refuses a northing outside its latitude band', () => {
    expect(problemOf('13 T 345678 1818765')).toContain('does not lie in latitude band T')
  })

  it('refuses zone 61 and a missing band letter', () => {
    expect(problemOf('61 T 345678 4818765')).toContain('zones run from 1 to 60')
    expect(problemOf('13 345678 4818765')).toContain('letter of the latitude band')
  })
})

describe('US National Grid', () => {
  it("gives 11SPA7234911844 for 36.2361322, -115.0820944 (published check of the library's own tests)", () => {
    expect(usngText([-115.0820944, 36.2361322])).toBe('11S PA 72349 11844')
  })

  it("puts the middle of 33UXP04 at 48.24949, 16.41450 (published check of the library's own tests)", () => {
    const parsed = parseUsng('33U XP 0 4')
    if (!parsed || !('at' in parsed)) throw new Error('not read')
    expect(parsed.at[0]).toBeCloseTo(16.4145, 5)
    expect(parsed.at[1]).toBeCloseTo(48.24949, 5)
    expect(parsed.squareM).toBe(10_000)
  })

  it('puts the Jefferson Pier in Washington at 18S UJ 23371 06519 (published example, from memory)', () => {
    const pier: Position = [-dms(77, 2, 11.6), dms(38, 53, 23.3)]
    expect(wayTo(read('18S UJ 23371 06519'), pier).distanceM).toBeLessThan(3)
  })

  it('is read packed, spaced and in small letters alike', () => {
    const packed = read('13TCJ1234567890')
    expect(read('13T CJ 12345 67890')).toEqual(packed)
    expect(read('13 t cj 12345 67890')).toEqual(packed)
  })

  it('says how wide the square of a short reference is', () => {
    const parsed = parseCoordinates('13T CJ 123 678')
    expect(parsed.kind === 'position' && parsed.squareM).toBe(100)
  })

  it('refuses uneven digits, letters that name no square, and zone 61', () => {
    expect(problemOf('13T CJ 1234 567')).toContain('as many digits for east as for north')
    expect(problemOf('13T CA 12345 67890')).toContain('no square')
    expect(problemOf('13T ZJ 12345 67890')).toContain('no square')
    expect(problemOf('61T CJ 12345 67890')).toContain('run from 1 to 60')
  })

  it('agrees with the projection library within two metres everywhere between 80° S and 84° N', () => {
    fc.assert(
      fc.property(positions, (at) => {
        const text = usngText(at)
        expect(text).not.toBeNull()
        expect(wayTo(read(text ?? ''), at).distanceM).toBeLessThan(2)
        expect(wayTo(read(utmText(at) ?? ''), at).distanceM).toBeLessThan(2)
      }),
    )
  })
})

const positions = fc.tuple(
  fc.double({ min: -179.9, max: 179.9, noNaN: true }),
  fc.double({ min: -79.9, max: 83.9, noNaN: true }),
)

describe('degrees', () => {
  const place: Position = [-107.221, 43.5123]

  it('are read as decimals with a space, a comma, signs or letters', () => {
    for (const text of [
      '43.5123 -107.221',
      '43.5123, -107.221',
      '43.5123° N, 107.2210° W',
      'N 43.5123 W 107.2210',
      '107.221W 43.5123N',
    ]) {
      const [lon, lat] = read(text)
      expect(lon).toBeCloseTo(-107.221, 9)
      expect(lat).toBeCloseTo(43.5123, 9)
    }
  })

  it('are read as degrees, minutes and seconds however the marks are typed', () => {
    for (const text of [
      '43°30\'44.28" N 107°13\'15.6" W',
      '43 30 44.28 N 107 13 15.6 W',
      'N43°30′44.28″ W107°13′15.6″',
      "43°30.738' N, 107°13.26' W",
    ]) {
      expect(wayTo(read(text), place).distanceM).toBeLessThan(0.01)
    }
  })

  it('are written so that 43.5123 -107.221 reads 43°30\'44.3" N 107°13\'15.6" W (arithmetic)', () => {
    expect(degreesMinutesSeconds(place)).toBe('43°30\'44.3" N 107°13\'15.6" W')
    expect(decimalDegrees(place)).toBe('43.51230° N, 107.22100° W')
  })

  it('never show 60 seconds or 60 minutes', () => {
    expect(degreesMinutesSeconds([-107.99999999, 43.99999999])).toBe(
      '44°00\'00.0" N 108°00\'00.0" W',
    )
  })

  it('refuse a longitude in first place, minutes of 60 and one lonely angle', () => {
    expect(problemOf('-107.221 43.5123')).toContain('Latitude comes first')
    expect(problemOf("43°61' N 107°10' W")).toContain('below 60')
    expect(problemOf('43.5°')).toContain('a latitude and a longitude')
    expect(problemOf('43° N 107° S')).toContain('the other E or W')
  })
})

describe('a scrap of a pole id', () => {
  it('is never taken for coordinates', () => {
    for (const text of ['418', '2-418', 'W-742', 'W742', 'W 742', '12', 'E-7', 'N12', '']) {
      expect(parseCoordinates(text).kind).toBe('no coordinates')
    }
  })
})

describe('any position', () => {
  it('written in each notation is read back to within 4 m', () => {
    fc.assert(
      fc.property(positions, (at) => {
        for (const { text } of notationsOf(at)) {
          expect(wayTo(read(text), at).distanceM).toBeLessThan(4)
        }
      }),
    )
  })

  it('near a pole of the earth has degrees but no UTM and no grid reference', () => {
    expect(notationsOf([10, 85]).map(({ name }) => name)).toEqual([
      'Degrees',
      'Degrees, minutes, seconds',
    ])
  })
})
