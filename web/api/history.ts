import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { DeletedItem, PurgeBody, Subject } from '#contract/history.ts'
import { call } from './call.ts'

/** One thing of the record; `feederId` is null for what belongs to none. */
export interface Thing {
  readonly subject: Subject
  readonly subjectId: string
  readonly feederId: string | null
}

/** Changes of a thing, oldest first. */
export function useHistory({ subject, subjectId, feederId }: Thing, isWanted = true) {
  return useQuery({
    queryKey: ['history', subject, subjectId],
    queryFn: ({ signal }) =>
      call(
        'getHistory',
        { params: { subject, subjectId }, query: feederId === null ? {} : { feederId } },
        signal,
      ),
    enabled: isWanted,
  })
}

/** What was deleted on a feeder and can be restored, newest first. */
export function useDeleted(feederId: string, isWanted = true) {
  return useQuery({
    queryKey: ['deleted', feederId],
    queryFn: ({ signal }) => call('listDeleted', { params: { feederId } }, signal),
    enabled: isWanted,
  })
}

/** Lists that a thing leaves or comes back to. */
const CHANGED_BY_IT = [
  'deleted',
  'proposals',
  'protections',
  'nests',
  'incidents',
  'pole-tops',
  'programmes',
  'jobs',
  'attachments',
]

/** Bringing back what was deleted, whatever it is, and removing it for good. */
export function useDeletedChanges(feederId: string) {
  const client = useQueryClient()
  const onSettled = async () => {
    for (const key of CHANGED_BY_IT) {
      await client.invalidateQueries({ queryKey: [key, feederId] })
    }
    await client.invalidateQueries({ queryKey: ['history'] })
  }
  return {
    restore: useMutation({ mutationFn: restoreDeleted, onSettled }),
    purge: useMutation({ mutationFn: (body: PurgeBody) => call('purge', { body }), onSettled }),
  }
}

function restoreDeleted({ subject, subjectId, feederId, version }: DeletedItem): Promise<unknown> {
  const query = { version }
  switch (subject) {
    case 'proposal':
      return call('restoreProposal', { params: { proposalId: subjectId }, query })
    case 'protection':
      return call('restoreProtection', { params: { feederId, protectionId: subjectId }, query })
    case 'nest':
      return call('restoreNest', { params: { feederId, nestId: subjectId }, query })
    case 'incident':
      return call('restoreIncident', { params: { feederId, incidentId: subjectId }, query })
    case 'pole-top':
      return call('restorePoleTop', { params: { feederId, poleId: subjectId }, query })
    case 'programme':
      return call('restoreProgramme', { params: { feederId, programmeId: subjectId }, query })
    case 'job':
      return call('restoreJob', { params: { jobId: subjectId }, query })
    case 'attachment':
      return call('restoreAttachment', { params: { attachmentId: subjectId }, query })
    default:
      throw new Error(`Expected something that can be restored, got a ${subject}.`)
  }
}
