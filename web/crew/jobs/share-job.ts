import type { Job } from '#contract/jobs.ts'
import { addressOfSelection, selectionOfAddress } from '../../state/address.ts'
import { viewText } from '../crew-view.ts'

/** Address that opens a job on the crew's desk, for another device. */
export function addressOfJob({ id, feederId }: Pick<Job, 'id' | 'feederId'>): string {
  const view = viewText({ part: 'job', jobId: id })
  const plain = selectionOfAddress('')
  const search = addressOfSelection({ ...plain, person: 'crew', feeder: feederId, view })
  return `${window.location.origin}/${search}`
}

/** Hands the link to the device's own sharing, else to the clipboard; says in words how that went. */
export async function shareJob(job: Pick<Job, 'id' | 'feederId' | 'title'>): Promise<string> {
  const url = addressOfJob(job)
  if (navigator.share) {
    try {
      await navigator.share({ title: job.title, url })
      return 'Shared.'
    } catch (error) {
      if (error instanceof Error && error.name === 'AbortError') return 'Not shared.'
    }
  }
  try {
    await navigator.clipboard.writeText(url)
    return 'The link is copied.'
  } catch {
    return `The browser does not let this page share or copy. The link: ${url}`
  }
}
