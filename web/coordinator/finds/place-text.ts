import type { Position } from '#domain/feeder/geometry.ts'

/** Six decimals of a degree are about a tenth of a metre. */
const DECIMALS = 6

/** "43.68077, -107.16813": latitude first, as people write it. */
export function textOfPlace([longitude, latitude]: Position): string {
  return `${decimal(latitude)}, ${decimal(longitude)}`
}

/** Null where the text is no latitude and longitude in decimal degrees. */
export function placeOfText(text: string): Position | null {
  const found = /^\s*(-?\d{1,2}(?:\.\d+)?)°?\s*[,;\s]\s*(-?\d{1,3}(?:\.\d+)?)°?\s*$/.exec(text)
  const [latitude, longitude] = [Number(found?.[1]), Number(found?.[2])]
  if (!found || Math.abs(latitude) > 90 || Math.abs(longitude) > 180) return null
  return [longitude, latitude]
}

const decimal = (degrees: number) => String(Number(degrees.toFixed(DECIMALS)))
