import * as mgrs from 'mgrs'
import type { Position } from '#domain/feeder/geometry.ts'

/** Latitude bands of the military grid, 8° each from 80° S; the last, X, spans 12°. */
const BANDS = 'CDEFGHJKLMNPQRSTUVWX'
const BAND_DEG = 8
const SOUTH_END_DEG = -80
const NORTH_END_DEG = 84

export interface GridZone {
  readonly zone: number
  readonly band: string
}

/** UTM zone and latitude band of a position, the exceptions around Norway included; null near the poles. */
export function gridZone(at: Position): GridZone | null {
  if (at[1] < SOUTH_END_DEG || at[1] > NORTH_END_DEG) return null
  const match = /^(\d{1,2})([A-Z])/.exec(mgrs.forward([...at], 0))
  const [, zone, band] = match ?? []
  return zone && band ? { zone: Number(zone), band } : null
}

/** South and north end of a latitude band, degrees; null for a letter that is no band. */
export function latitudeRangeOfBand(band: string): readonly [number, number] | null {
  const index = BANDS.indexOf(band)
  if (index < 0 || band.length !== 1) return null
  const south = SOUTH_END_DEG + index * BAND_DEG
  return [south, band === 'X' ? NORTH_END_DEG : south + BAND_DEG]
}
