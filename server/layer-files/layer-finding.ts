import type { Finding, LayerName } from '#domain/feeder/finding.ts'
import type { Position } from '#domain/feeder/geometry.ts'

export interface FindingSubject {
  readonly layer: LayerName
  readonly featureId?: string | null
  readonly place?: Position | null
}

export function finding(
  severity: Finding['severity'],
  code: string,
  { layer, featureId = null, place = null }: FindingSubject,
  what: string,
  remedy: string,
): Finding {
  return { severity, code, layer, featureId, place, what, remedy }
}

/** Codes of findings that say a file could not be read at all, as opposed to what stands in it. */
const UNREADABLE = new Set([
  'no-such-folder',
  'bad-zip',
  'missing-file',
  'bad-json',
  'not-a-feature-collection',
])

export function isUnreadable({ code }: Finding): boolean {
  return UNREADABLE.has(code)
}
