import type { StoredItem } from '../device/device-tables.ts'
import { askAgain } from './ask-again.ts'
import { queryClient } from './query-client.ts'

/**
 * Asks again for what an item that arrived has changed: all that names its job, and the lists of
 * its feeder. The open feeder itself stays as the person has it.
 */
export function refreshAfterSending({ jobId, feederId }: StoredItem): void {
  void askAgain(queryClient, {
    predicate: ({ queryKey }) =>
      queryKey[0] === 'jobs' ||
      (jobId !== undefined && queryKey.includes(jobId)) ||
      (feederId !== undefined && queryKey[0] !== 'feeder' && queryKey.includes(feederId)),
  })
}
