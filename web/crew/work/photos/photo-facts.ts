import type { Position } from '#domain/feeder/geometry.ts'

/** What a picture says of itself; each left out where it does not. */
export interface PhotoFacts {
  readonly takenAt?: string
  readonly takenPosition?: Position
}

/** Tags of Exif 2.32 (CIPA DC-008). */
const TAGS = ['DateTimeOriginal', 'OffsetTimeOriginal'] as const

/** Reads place and time out of a picture, on the device; a picture without them gives nothing. */
export async function photoFacts(file: Blob): Promise<PhotoFacts> {
  const { default: exifr } = await import('exifr')
  const bytes = await file.arrayBuffer()
  const [place, tags] = await Promise.all([
    exifr.gps(bytes).catch(() => undefined),
    exifr.parse(bytes, { pick: [...TAGS], reviveValues: false }).catch(() => undefined),
  ])
  const at = positionOf(place)
  const takenAt = instantOf(tags)
  return { ...(at && { takenPosition: at }), ...(takenAt && { takenAt }) }
}

function positionOf(place: unknown): Position | null {
  if (typeof place !== 'object' || place === null) return null
  const { latitude, longitude } = place as { latitude?: unknown; longitude?: unknown }
  if (typeof latitude !== 'number' || typeof longitude !== 'number') return null
  const isOnEarth = Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180
  return isOnEarth && !(latitude === 0 && longitude === 0) ? [longitude, latitude] : null
}

/** Exif writes "2026:11:28 13:05:09", and the zone beside it or not at all: then it is the device's. */
export function instantOf(tags: unknown): string | null {
  if (typeof tags !== 'object' || tags === null) return null
  const { DateTimeOriginal: local, OffsetTimeOriginal: zone } = tags as Record<string, unknown>
  if (typeof local !== 'string') return null
  const parts = /^(\d{4}):(\d{2}):(\d{2})[ T](\d{2}:\d{2}:\d{2})/.exec(local)
  if (!parts) return null
  const offset = typeof zone === 'string' && /^[+-]\d{2}:\d{2}$/.test(zone) ? zone : ''
  const instant = new Date(`${parts[1]}-${parts[2]}-${parts[3]}T${parts[4]}${offset}`)
  return Number.isNaN(instant.getTime()) ? null : instant.toISOString()
}
