import type { Position } from '#domain/feeder/geometry.ts'

/** Decimal degrees to 5 places, about 1 m: "43.51230° N, 107.22100° W". */
export function decimalDegrees([lon, lat]: Position): string {
  return `${Math.abs(lat).toFixed(5)}° ${latLetter(lat)}, ${Math.abs(lon).toFixed(5)}° ${lonLetter(lon)}`
}

/** Degrees, minutes and seconds to a tenth of a second, about 3 m: `43°30'44.3" N 107°13'15.6" W`. */
export function degreesMinutesSeconds([lon, lat]: Position): string {
  return `${sexagesimal(Math.abs(lat))} ${latLetter(lat)} ${sexagesimal(Math.abs(lon))} ${lonLetter(lon)}`
}

const latLetter = (lat: number): string => (lat < 0 ? 'S' : 'N')
const lonLetter = (lon: number): string => (lon < 0 ? 'W' : 'E')

function sexagesimal(degrees: number): string {
  const tenths = Math.round(degrees * 36_000)
  const wholeDegrees = Math.floor(tenths / 36_000)
  const minutes = Math.floor((tenths % 36_000) / 600)
  const seconds = (tenths % 600) / 10
  return `${wholeDegrees}°${String(minutes).padStart(2, '0')}'${seconds.toFixed(1).padStart(4, '0')}"`
}

/** One angle as typed: its parts (degrees, minutes, seconds), sign and compass letter. */
interface TypedAngle {
  readonly parts: readonly number[]
  readonly isNegative: boolean
  readonly letter: string | null
}

export type ParsedDegrees = { at: Position } | { problem: string } | null

const HAS_DEGREE_MARK = /\d\s*[°º]/
/** A letter of either kind beside figures, so that the pole id "W742" is not taken for a longitude. */
const HAS_BOTH_LETTERS = /^(?=.*\d)(?=.*[NS])(?=.*[EW])[\dNSEW\s.,;'′’"″”-]+$/i
const TWO_DECIMALS = /^[+-]?\d{1,3}\.\d+\s*[,;\s]\s*[+-]?\d{1,3}\.\d+$/

/**
 * Reads latitude and longitude in decimal degrees, degrees and minutes, or degrees, minutes and
 * seconds; latitude first unless letters say otherwise. Null where the text is not meant as degrees.
 */
export function parseDegrees(text: string): ParsedDegrees {
  const tidy = text.trim().replaceAll('−', '-')
  const isMeant = [TWO_DECIMALS, HAS_DEGREE_MARK, HAS_BOTH_LETTERS].some((mark) => mark.test(tidy))
  if (!isMeant) return null
  const angles = splitAngles(tidy)
  if (!angles) {
    return {
      problem:
        'Degrees need a latitude and a longitude, as 43.5123 -107.2210 or 43°30\'44" N 107°13\'16" W.',
    }
  }
  const [first, second] = angles
  const isSwapped = isLongitudeLetter(first.letter) || isLatitudeLetter(second.letter)
  return isSwapped ? positionOf(second, first) : positionOf(first, second)
}

const isLongitudeLetter = (letter: string | null): boolean => letter === 'E' || letter === 'W'
const isLatitudeLetter = (letter: string | null): boolean => letter === 'N' || letter === 'S'

function splitAngles(text: string): [TypedAngle, TypedAngle] | null {
  const tokens = text.toUpperCase().match(/[NSEW]|[+-]?\d+(?:\.\d+)?/g) ?? []
  const leftover = text.toUpperCase().replace(/[NSEW]|[+-]?\d+(?:\.\d+)?|[°º'′’"″”,;\s]/g, '')
  if (leftover !== '') return null
  const letterAt = tokens.flatMap((token, index) => (/[NSEW]/.test(token) ? [index] : []))
  const cut = cutPoint(tokens, letterAt)
  const first = cut === null ? null : typedAngle(tokens.slice(0, cut))
  const second = cut === null ? null : typedAngle(tokens.slice(cut))
  return first && second ? [first, second] : null
}

/** Where the second angle begins: after a trailing letter, at a second leading letter, or midway. */
function cutPoint(tokens: readonly string[], letterAt: readonly number[]): number | null {
  if (letterAt.length === 0) return tokens.length % 2 === 0 ? tokens.length / 2 : null
  const [first, second] = letterAt
  if (letterAt.length !== 2 || first === undefined || second === undefined) return null
  return first === 0 ? second : first + 1
}

function typedAngle(tokens: readonly string[]): TypedAngle | null {
  const letters = tokens.filter((token) => /[NSEW]/.test(token))
  const numbers = tokens.filter((token) => !/[NSEW]/.test(token))
  if (numbers.length < 1 || numbers.length > 3 || letters.length > 1) return null
  return {
    parts: numbers.map((number) => Math.abs(Number(number))),
    isNegative: numbers[0]?.startsWith('-') ?? false,
    letter: letters[0] ?? null,
  }
}

function positionOf(latitude: TypedAngle, longitude: TypedAngle): ParsedDegrees {
  const hasWrongLetters = isLongitudeLetter(latitude.letter) || isLatitudeLetter(longitude.letter)
  if (hasWrongLetters) return { problem: 'One angle needs N or S, the other E or W.' }
  if ([...latitude.parts.slice(1), ...longitude.parts.slice(1)].some((part) => part >= 60)) {
    return { problem: 'Minutes and seconds run from 0 to below 60.' }
  }
  const lat = signedDegrees(latitude)
  const lon = signedDegrees(longitude)
  if (Math.abs(lat) > 90) {
    return { problem: `Latitude comes first and runs from -90 to 90; ${lat} is outside.` }
  }
  if (Math.abs(lon) > 180) {
    return { problem: `Longitude runs from -180 to 180; ${lon} is outside.` }
  }
  return { at: [lon, lat] }
}

function signedDegrees({ parts, isNegative, letter }: TypedAngle): number {
  const [degrees = 0, minutes = 0, seconds = 0] = parts
  const size = degrees + minutes / 60 + seconds / 3600
  return isNegative || letter === 'S' || letter === 'W' ? -size : size
}
