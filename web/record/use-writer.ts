import type { HistoryEntry } from '#contract/history.ts'
import { type Thing, useHistory } from '../api/history.ts'
import { useNames } from '../api/names.ts'
import { useNewestChange } from '../state/live.ts'

export interface Writer {
  /** Begins a sentence; "Someone" as long as it is not known. */
  readonly name: string
  /** Null where the history is not at hand. */
  readonly entry: HistoryEntry | null
}

/** Who wrote a version of a thing. */
export function useWriter(thing: Thing, version: number): Writer {
  const nameOf = useNames()
  const { data } = useHistory(thing)
  const told = useNewestChange(thing.subject, thing.subjectId)
  const entry = data?.entries.find((other) => other.version === version) ?? null
  const id = entry?.actorId ?? (told?.version === version ? told.actorId : null)
  return { name: id === null ? 'Someone' : nameOf(id), entry }
}
