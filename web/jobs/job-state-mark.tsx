import type { JobState } from '#domain/jobs/job-state.ts'
import { JOB_STATE_SHAPES } from './job-state-shapes.ts'
import { STATE_WORDS } from './job-words.ts'
import './jobs.css'

/** State of a job as a shape and a word, never as a colour alone. */
export function JobStateMark({ state }: { readonly state: JobState }) {
  return (
    <span className={`job-state job-state-${JOB_STATE_SHAPES[state].asks}`}>
      <JobStateShape state={state} />
      {STATE_WORDS[state]}
    </span>
  )
}

/** The shape alone, beside words that say the state. */
export function JobStateShape({ state }: { readonly state: JobState }) {
  const { outline, fill, inside } = JOB_STATE_SHAPES[state]
  return (
    <svg className="job-shape" viewBox="0 0 24 24" width="18" height="18" aria-hidden="true">
      {fill && <path className="job-shape-filled" d={fill} />}
      <path d={outline} />
      {inside && <path d={inside} />}
    </svg>
  )
}
