import type { Span } from '../feeder/span.ts'
import { pathLengthM } from './path-length.ts'

/** Electrical length of a span, metres: the recorded one, else measured along its path. */
export function spanLengthM(span: Span): number {
  return span.lengthM ?? pathLengthM(span.path)
}
