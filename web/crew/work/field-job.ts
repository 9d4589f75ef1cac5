import { useEffect, useMemo } from 'react'
import type { RouteInput } from '#contract/route.ts'
import type { routes } from '#contract/routes.ts'
import type { AsLeft } from '#domain/jobs/as-left.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { JobState } from '#domain/jobs/job-state.ts'
import { useJob } from '../../api/jobs.ts'
import { type OutboxItem, putInOutbox, useOutbox } from '../../api/outbox.ts'
import { randomId } from '../../device/random-id.ts'
import { type FieldJob, foldFieldJob, isAnswerBehind } from './fold-field-job.ts'

export interface FieldJobState {
  /** Null as long as neither the server nor the device has given the job. */
  readonly field: FieldJob | null
  readonly error: Error | null
  readonly refetch: () => void
}

/** A job with all that was entered on this device, sent or not. */
export function useFieldJob(jobId: string): FieldJobState {
  const { data, error, refetch } = useJob(jobId)
  const outbox = useOutbox({ jobId })
  const isBehind = data !== undefined && isAnswerBehind(data, outbox)
  useEffect(() => {
    if (isBehind) void refetch()
  }, [isBehind, refetch])
  const field = useMemo(() => (data ? foldFieldJob(data, outbox) : null), [data, outbox])
  return { field, error: field ? null : error, refetch: () => void refetch() }
}

/** What every entry of the device begins with. */
export function beginEntry(pole: string): Pick<JobEntry, 'id' | 'at' | 'pole'> {
  return { id: `e-${randomId()}`, at: new Date().toISOString(), pole }
}

/**
 * Enters what was done. Resolves once it is safely on the device; it is sent by itself.
 *
 * @param what in words, as the outbox lists it
 */
export function enterEntry(jobId: string, entry: JobEntry, what: string): Promise<OutboxItem> {
  const input = { params: { jobId }, body: { entries: [entry] } }
  return putInOutbox('sendEntries', input, { what, jobId, id: entry.id })
}

export interface Move {
  readonly to: JobState
  /** Of the job as the person saw it. */
  readonly version: number
  readonly reason?: string
}

export function enterMove(jobId: string, move: Move, what: string): Promise<OutboxItem> {
  const body = { ...move, deviceAt: new Date().toISOString() }
  return putInOutbox('moveJob', { params: { jobId }, body }, { what, jobId, id: `m-${randomId()}` })
}

/**
 * @param version of what the server has; 0 where it has none
 */
export function enterAsLeft(jobId: string, asLeft: AsLeft, version: number): Promise<OutboxItem> {
  const body = { version, asLeft, deviceAt: new Date().toISOString() }
  const about = { what: 'As left at the pole', jobId, id: `l-${randomId()}` }
  return putInOutbox('putAsLeft', { params: { jobId }, body }, about)
}

export interface PhotoOfJob {
  readonly jobId: string
  readonly feederId: string
  readonly pole: string
  readonly file: File
  readonly what: string
  /** Of the picture itself, where it says so. */
  readonly takenAt?: string
  readonly takenPosition?: readonly [number, number]
  readonly offPoleM?: number
}

/** Keeps a photo on the device, to be attached to the job under an id of the device. */
export async function enterPhoto(photo: PhotoOfJob): Promise<void> {
  const { jobId, feederId, pole, file, what, takenAt, takenPosition, offPoleM } = photo
  const attachmentId = `p-${randomId()}`
  const input: RouteInput<(typeof routes)['attach']> = {
    params: { feederId },
    query: {
      attachedTo: 'job',
      attachedToId: jobId,
      attachmentId,
      fileName: file.name.slice(-200),
      ...(what && { note: what }),
      deviceAt: new Date().toISOString(),
    },
    file,
  }
  const named = what || file.name
  await putInOutbox('attach', input, {
    what: `Photo at pole ${pole}: ${named}`,
    jobId,
    feederId,
    id: attachmentId,
  })
  const entry: JobEntry = {
    ...beginEntry(pole),
    kind: 'photo',
    attachmentId,
    what,
    ...(takenAt && { takenAt }),
    ...(takenPosition && { takenPosition: [takenPosition[0], takenPosition[1]] }),
    ...(offPoleM !== undefined && { offPoleM }),
  }
  await enterEntry(jobId, entry, `Note of the photo at pole ${pole}: ${named}`)
}
