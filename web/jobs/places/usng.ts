import * as mgrs from 'mgrs'
import type { Position } from '#domain/feeder/geometry.ts'
import { latitudeRangeOfBand } from './grid-zone.ts'

/** Metre precision, 5 digits for each direction (FGDC-STD-011-2001). */
const METRE_DIGITS = 5

/** US National Grid to one metre, spaced as people read it: "13T CJ 12345 67890"; null near the poles. */
export function usngText(at: Position): string | null {
  if (!gridReaches(at)) return null
  const packed = mgrs.forward([...at], METRE_DIGITS)
  const match = /^(\d{1,2}[A-Z])([A-Z]{2})(\d{5})(\d{5})$/.exec(packed)
  return match ? match.slice(1).join(' ') : null
}

const gridReaches = ([, lat]: Position): boolean => lat >= -80 && lat <= 84

export type ParsedUsng = { at: Position; squareM: number } | { problem: string } | null

const USNG = /^(\d{1,2})\s*([A-Z])\s*([A-HJ-NP-Z])([A-HJ-NP-V])\s*(\d+\s*\d*)$/i

/**
 * Reads a US National Grid or military grid reference of any precision and gives the middle of its
 * square, with the square's width in metres. Null where the text does not look like one.
 */
export function parseUsng(text: string): ParsedUsng {
  const match = USNG.exec(text.trim())
  if (!match) return null
  const [, zone = '', bandText = '', column = '', row = '', digitText = ''] = match
  const band = bandText.toUpperCase()
  if (Number(zone) < 1 || Number(zone) > 60) {
    return { problem: `Grid zones run from 1 to 60; ${zone} is none.` }
  }
  if (!latitudeRangeOfBand(band)) {
    return { problem: `${band} is no latitude band; the letter after the zone is C to X.` }
  }
  const digits = evenDigits(digitText)
  if (digits === null) {
    return {
      problem:
        'The grid needs as many digits for east as for north, up to five each: 13T CJ 12345 67890.',
    }
  }
  const packed = `${Number(zone)}${band}${column}${row}${digits}`.toUpperCase()
  return hasColumn(Number(zone), column.toUpperCase())
    ? squareOf(packed, band, digits)
    : noSuchSquare(packed)
}

/** Column letters of the 100 km squares repeat every three zones (FGDC-STD-011-2001). */
const COLUMNS_BY_ZONE = ['STUVWXYZ', 'ABCDEFGH', 'JKLMNPQR'] as const

function hasColumn(zone: number, column: string): boolean {
  return COLUMNS_BY_ZONE[zone % 3]?.includes(column) ?? false
}

function noSuchSquare(packed: string): ParsedUsng {
  return {
    problem: `There is no square ${packed} on the grid; check the zone and the two letters.`,
  }
}

function evenDigits(text: string): string | null {
  const groups = text.trim().split(/\s+/)
  if (groups.length === 2 && groups[0]?.length !== groups[1]?.length) return null
  const digits = groups.join('')
  return digits.length % 2 === 0 && digits.length <= 2 * METRE_DIGITS ? digits : null
}

function squareOf(packed: string, band: string, digits: string): ParsedUsng {
  const squareM = 10 ** (METRE_DIGITS - digits.length / 2)
  try {
    const [lon, lat] = mgrs.toPoint(packed)
    const range = latitudeRangeOfBand(band)
    const slackDeg = squareM / 100_000
    const isInBand = range && lat >= range[0] - slackDeg && lat <= range[1] + slackDeg
    return isInBand ? { at: [lon, lat], squareM } : noSuchSquare(packed)
  } catch {
    return noSuchSquare(packed)
  }
}
