import type { Position } from '#domain/feeder/geometry.ts'
import { decimalDegrees, degreesMinutesSeconds, parseDegrees } from './degrees.ts'
import { parseUsng, usngText } from './usng.ts'
import { parseUtm, utmText } from './utm.ts'

export interface Notation {
  readonly name: string
  readonly text: string
}

/** A position in every notation that a crew may need; UTM and USNG are missing near the poles. */
export function notationsOf(at: Position): Notation[] {
  const found = [
    { name: 'Degrees', text: decimalDegrees(at) },
    { name: 'Degrees, minutes, seconds', text: degreesMinutesSeconds(at) },
    { name: 'UTM', text: utmText(at) },
    { name: 'US National Grid', text: usngText(at) },
  ]
  return found.flatMap(({ name, text }) => (text === null ? [] : [{ name, text }]))
}

export type TypedPosition =
  | {
      readonly kind: 'position'
      readonly at: Position
      readonly notation: 'degrees' | 'UTM' | 'US National Grid'
      /** Width of the grid square whose middle is given, metres; null where a point was typed. */
      readonly squareM: number | null
    }
  /** Meant as coordinates, but it cannot be read. */
  | { readonly kind: 'unreadable'; readonly problem: string }
  | { readonly kind: 'no coordinates' }

/** Reads whatever a crew types into the search box as a position, if it is meant as one. */
export function parseCoordinates(text: string): TypedPosition {
  const utm = parseUtm(text)
  if (utm) return typed(utm, 'UTM')
  const usng = parseUsng(text)
  if (usng) return typed(usng, 'US National Grid')
  const degrees = parseDegrees(text)
  return degrees ? typed(degrees, 'degrees') : { kind: 'no coordinates' }
}

function typed(
  parsed: { at: Position; squareM?: number } | { problem: string },
  notation: 'degrees' | 'UTM' | 'US National Grid',
): TypedPosition {
  if ('problem' in parsed) return { kind: 'unreadable', problem: parsed.problem }
  return { kind: 'position', at: parsed.at, notation, squareM: parsed.squareM ?? null }
}
