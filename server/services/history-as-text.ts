import { csvLine } from '#contract/csv-line.ts'
import type { HistoryEntry, TakeOutQuery } from '#contract/history.ts'

/** Lines that go out together, so that a long history is neither held whole nor sent in crumbs. */
const LINES_AT_ONCE = 500

const COLUMNS: readonly (readonly [name: string, read: (entry: HistoryEntry) => unknown])[] = [
  ['seq', ({ seq }) => seq],
  ['subject', ({ subject }) => subject],
  ['feeder_id', ({ feederId }) => feederId],
  ['subject_id', ({ subjectId }) => subjectId],
  ['version', ({ version }) => version],
  ['what', ({ what }) => what],
  ['at', ({ at }) => at],
  ['device_at', ({ deviceAt }) => deviceAt],
  ['actor_id', ({ actorId }) => actorId],
  ['actor_role', ({ actorRole }) => actorRole],
  ['reason', ({ reason }) => reason],
  ['before', ({ before }) => jsonOrNothing(before)],
  ['after', ({ after }) => jsonOrNothing(after)],
  ['previous_hash', ({ previousHash }) => previousHash],
  ['hash', ({ hash }) => hash],
]

/**
 * The history as CSV (RFC 4180) or as one JSON object a line, in pieces. Actors stand by their ids.
 *
 * @param isHidden entries of which `before` and `after` are left out, as of people, whose names they hold
 */
export async function* historyAsText(
  entries: AsyncIterable<HistoryEntry>,
  as: TakeOutQuery['as'],
  isHidden: (entry: HistoryEntry) => boolean = isOfPerson,
): AsyncGenerator<string> {
  if (as === 'csv') yield csvLine(COLUMNS.map(([name]) => name))
  const lineOf = as === 'csv' ? csvOf : jsonLineOf
  let lines: string[] = []
  for await (const entry of entries) {
    lines.push(lineOf(entry, isHidden(entry)))
    if (lines.length < LINES_AT_ONCE) continue
    yield lines.join('')
    lines = []
  }
  if (lines.length > 0) yield lines.join('')
}

export function isOfPerson({ subject }: HistoryEntry): boolean {
  return subject === 'person'
}

function csvOf(entry: HistoryEntry, isHidden: boolean): string {
  const shown = isHidden ? { ...entry, before: null, after: null } : entry
  return csvLine(COLUMNS.map(([, read]) => read(shown)))
}

function jsonLineOf(entry: HistoryEntry, isHidden: boolean): string {
  const { before, after, ...others } = entry
  return `${JSON.stringify(isHidden ? others : entry)}\n`
}

function jsonOrNothing(value: unknown): string | null {
  return value === null ? null : JSON.stringify(value)
}
