import type { JobSummary } from '#contract/jobs.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import type { JobState } from '#domain/jobs/job-state.ts'
import { inOrderOfNeed } from '../../jobs/job-order.ts'
import { type WayTo, wayTo } from '../../jobs/places/bearing.ts'

/** What a crew goes out for, and what it may look at again. */
const TO_DO: readonly JobState[] = ['issued', 'in the field']
const RETURNED: readonly JobState[] = ['returned']
const DONE: readonly JobState[] = ['work done']

export interface ListedJob {
  readonly job: JobSummary
  /** To its nearest pole; null where the device or the poles are not known. */
  readonly way: WayTo | null
}

export interface JobLists {
  /** Issued to the crew, or begun. */
  readonly toDo: readonly ListedJob[]
  /** Sent back: by the crew to the office, or by the supervisor to the crew. */
  readonly returned: readonly ListedJob[]
  /** Done in the field; the supervisor has not closed them yet. */
  readonly done: readonly ListedJob[]
}

/**
 * The jobs that a crew can act on: nearest first where the device knows where it is, else late and
 * due first.
 *
 * @param poleAt position of a pole of a feeder; undefined where it is not on this device
 * @param today calendar date, as 2026-11-25
 */
export function listJobs(
  jobs: readonly JobSummary[],
  poleAt: (feederId: string, poleId: string) => Position | undefined,
  device: Position | null,
  today: string,
): JobLists {
  const listed = inOrderOfNeed(jobs, today)
    .map((job) => ({ job, way: device && nearestWay(job, poleAt, device) }))
    .sort((a, b) => lengthOf(a) - lengthOf(b))
  const inState = (states: readonly JobState[]) =>
    listed.filter(({ job }) => states.includes(job.state))
  return { toDo: inState(TO_DO), returned: inState(RETURNED), done: inState(DONE) }
}

/** What a crew takes along this morning: begun, or issued and due up to today. */
export function todaysJobs(jobs: readonly JobSummary[], today: string): JobSummary[] {
  return jobs.filter(
    ({ state, dueOn }) =>
      state === 'in the field' || (state === 'issued' && dueOn !== undefined && dueOn <= today),
  )
}

function nearestWay(
  { feederId, poles }: JobSummary,
  poleAt: (feederId: string, poleId: string) => Position | undefined,
  device: Position,
): WayTo | null {
  const ways = poles.flatMap((poleId) => {
    const at = poleAt(feederId, poleId)
    return at ? [wayTo(device, at)] : []
  })
  return ways.sort((a, b) => a.distanceM - b.distanceM)[0] ?? null
}

/** What has no known way comes after all that has one, in its own order. */
const lengthOf = ({ way }: ListedJob): number => way?.distanceM ?? Number.MAX_VALUE
