import type { JobSummary } from '#contract/jobs.ts'
import type { Pole } from '#domain/feeder/pole.ts'
import type { JobState } from '#domain/jobs/job-state.ts'
import { isLate, isOpen } from '../../jobs/job-words.ts'

export interface JobSpot {
  readonly job: string
  readonly pole: string
  readonly state: JobState
  readonly late: boolean
  /** How many open jobs are on the pole. */
  readonly jobs: number
  readonly label: string
}

/** What came back, then what is under way, then what is still ahead. */
const PRESSING: readonly JobState[] = [
  'returned',
  'work done',
  'in the field',
  'issued',
  'approved',
  'drafted',
]

/** One mark for each pole of an open job: of several jobs, that of the most pressing. */
export function jobSpots(
  poles: readonly Pick<Pole, 'id' | 'at'>[],
  jobs: readonly JobSummary[],
  today: string,
): GeoJSON.FeatureCollection<GeoJSON.Point, JobSpot> {
  const places = new Map(poles.map(({ id, at }) => [id, at]))
  const byPole = new Map<string, JobSummary[]>()
  for (const job of jobs.filter(({ state }) => isOpen(state))) {
    for (const pole of job.poles) byPole.set(pole, [...(byPole.get(pole) ?? []), job])
  }
  return {
    type: 'FeatureCollection',
    features: [...byPole].flatMap(([pole, own]) => {
      const at = places.get(pole)
      const [first] = [...own].sort((a, b) => weight(b, today) - weight(a, today))
      if (!at || !first) return []
      const late = isLate(first, today)
      const properties: JobSpot = {
        job: first.id,
        pole,
        state: first.state,
        late,
        jobs: own.length,
        label: `${first.title}${late ? ', late' : ''}${own.length > 1 ? `, and ${own.length - 1} more` : ''}`,
      }
      return [{ type: 'Feature', properties, geometry: { type: 'Point', coordinates: [...at] } }]
    }),
  }
}

function weight(job: JobSummary, today: string): number {
  const place = PRESSING.length - PRESSING.indexOf(job.state)
  return place + (isLate(job, today) ? PRESSING.length : 0)
}
