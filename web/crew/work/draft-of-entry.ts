import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { StepDraft } from './step-draft.ts'

/** What to fill into the form of a step again, so that a refused entry can be corrected. */
export function draftOfEntry(entry: JobEntry): StepDraft | null {
  if (entry.kind !== 'step done' && entry.kind !== 'step left out') return null
  const values = entry.kind === 'step done' ? entry.values : {}
  return {
    values: Object.fromEntries(
      Object.entries(values).map(([id, value]) => [
        id,
        typeof value === 'number' ? String(value) : value,
      ]),
    ),
    signedBy: entry.signedBy,
    remark: entry.kind === 'step done' ? (entry.remark ?? '') : '',
    isLeavingOut: entry.kind === 'step left out',
    why: entry.kind === 'step left out' ? entry.why : '',
  }
}
