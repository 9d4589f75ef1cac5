import type { QueryClient, QueryKey } from '@tanstack/react-query'
import { askAgain } from './ask-again.ts'
import type { Notice } from './follow-changes.ts'

/**
 * Keys of what a change makes stale. A feeder that is open is left as it is: another version under
 * the person's hands would move what they are looking at, so the page offers to load it.
 */
export function staleAfter({ subject, subjectId, feederId }: Notice): QueryKey[] {
  const always: QueryKey[] = [['history', subject, subjectId]]
  switch (subject) {
    case 'feeder':
      return [...always, ['feeders']]
    case 'study':
      return [...always, ['study', subjectId]]
    case 'proposal':
      return [...always, ['proposals', feederId], ['proposal', subjectId], ['deleted', feederId]]
    case 'protection':
      return [...always, ['protections', feederId], ['deleted', feederId]]
    case 'nest':
      return [...always, ['nests', feederId], ['deleted', feederId]]
    case 'incident':
      return [...always, ['incidents', feederId], ['deleted', feederId]]
    case 'pole-top':
      return [...always, ['pole-tops', feederId], ['deleted', feederId]]
    case 'programme':
      return [...always, ['programmes', feederId], ['deleted', feederId]]
    case 'bird-settings':
      return [...always, ['bird-settings']]
    case 'attachment':
      return [...always, ['attachments', feederId], ['deleted', feederId]]
    case 'job':
      return [...always, ...jobKeys(subjectId), ['deleted', feederId]]
    // Entries and what was left stand under the id of their job.
    case 'job-entry':
    case 'as-left':
      return [...always, ...jobKeys(subjectId)]
    case 'step-sequence':
      return [...always, ['step-sequences']]
    case 'person':
      return [...always, ['names'], ['people'], ['me']]
    case 'token':
      return [...always, ['names'], ['tokens']]
  }
}

/** A job stands in the list of its feeder and in that of all feeders. */
const jobKeys = (jobId: string): QueryKey[] => [['jobs'], ['job', jobId]]

export async function refreshAfter(client: QueryClient, notice: Notice): Promise<void> {
  await Promise.all(staleAfter(notice).map((queryKey) => askAgain(client, { queryKey })))
  if (notice.subject !== 'feeder') return
  await client.invalidateQueries({ queryKey: ['feeder', notice.subjectId], type: 'inactive' })
}

/** What others change of a record, by the first member of its key; a whole feeder is left as it is. */
const CHANGED_BY_OTHERS: ReadonlySet<unknown> = new Set([
  'feeders',
  'proposals',
  'proposal',
  'protections',
  'nests',
  'incidents',
  'pole-tops',
  'programmes',
  'bird-settings',
  'attachments',
  'jobs',
  'job',
  'step-sequences',
  'deleted',
  'history',
])

/** To be called once changes are followed: what was asked for before may have been changed since. */
export function refreshFetchedBefore(client: QueryClient): Promise<void> {
  return askAgain(client, { predicate: ({ queryKey }) => CHANGED_BY_OTHERS.has(queryKey[0]) })
}
