import proj4 from 'proj4'
import type { Position } from '#domain/feeder/geometry.ts'
import { gridZone, latitudeRangeOfBand } from './grid-zone.ts'

export interface UtmPosition {
  /** 1 to 60. */
  readonly zone: number
  /** Latitude band, C to X without I and O. */
  readonly band: string
  readonly eastingM: number
  readonly northingM: number
}

const FALSE_NORTHING_M = 10_000_000

const projection = (zone: number, isSouth: boolean): string =>
  `+proj=utm +zone=${zone}${isSouth ? ' +south' : ''} +datum=WGS84 +units=m +no_defs`

/** Universal transverse Mercator on WGS 84; null near the poles, where UTM is not defined. */
export function utmOf(at: Position): UtmPosition | null {
  const zone = gridZone(at)
  if (!zone) return null
  const [eastingM, northingM] = proj4(projection(zone.zone, isSouthernBand(zone.band)), [...at])
  if (eastingM === undefined || northingM === undefined) return null
  return { ...zone, eastingM, northingM }
}

/** "13 T 345678 mE 4818765 mN", cut to whole metres as the US National Grid is; null near the poles. */
export function utmText(at: Position): string | null {
  const utm = utmOf(at)
  if (!utm) return null
  return `${utm.zone} ${utm.band} ${cut(utm.eastingM)} mE ${cut(utm.northingM)} mN`
}

/** A hair below zero at the equator is still zero. */
const cut = (lengthM: number): number => Math.max(0, Math.floor(lengthM))

export type ParsedUtm = { at: Position } | { problem: string } | null

const UTM =
  /^(\d{1,2})\s*([A-Z])?\s+(\d{6}(?:\.\d+)?)\s*(?:M?E)?\s*[,;\s]\s*(\d{1,8}(?:\.\d+)?)\s*(?:M?N)?$/i

/** Reads zone, band, easting and northing in metres. Null where the text does not look like UTM. */
export function parseUtm(text: string): ParsedUtm {
  const match = UTM.exec(text.trim())
  if (!match) return null
  const [, zoneText, bandText, eastingText, northingText] = match
  const zone = Number(zoneText)
  const band = bandText?.toUpperCase()
  if (zone < 1 || zone > 60) return { problem: `UTM zones run from 1 to 60; ${zone} is none.` }
  if (!band || !latitudeRangeOfBand(band)) {
    return { problem: `UTM needs the letter of the latitude band after the zone, as ${zone} T.` }
  }
  return atOf(zone, band, Number(eastingText), Number(northingText))
}

function atOf(zone: number, band: string, eastingM: number, northingM: number): ParsedUtm {
  const inBand = positionIn(zone, isSouthernBand(band), eastingM, northingM)
  if (inBand && isInBand(inBand, band)) return { at: inBand }
  const inSouth = positionIn(zone, true, eastingM, northingM)
  const meansSouth = band === 'S' && northingM > FALSE_NORTHING_M / 2
  if (meansSouth && inSouth) return { at: inSouth }
  return {
    problem: `A northing of ${northingM} m does not lie in latitude band ${band}; check the zone letter and the figures.`,
  }
}

const isSouthernBand = (band: string): boolean => band < 'N'

function positionIn(
  zone: number,
  isSouth: boolean,
  eastingM: number,
  northingM: number,
): Position | null {
  const [lon, lat] = proj4(projection(zone, isSouth)).inverse([eastingM, northingM])
  return lon !== undefined && lat !== undefined && Math.abs(lat) <= 90 ? [lon, lat] : null
}

/** With a little slack at the edges, where surveyed points may lie a few metres over. */
function isInBand([, lat]: Position, band: string): boolean {
  const range = latitudeRangeOfBand(band)
  return range !== null && lat >= range[0] - 0.01 && lat <= range[1] + 0.01
}
