import type { JobSummary } from '#contract/jobs.ts'
import { counted } from '../state/format.ts'
import { hoverPole } from '../state/hover.ts'
import { ListRow } from '../ui/list.tsx'
import { KIND_WORDS, polesInWords, progressInWords } from './job-words.ts'
import { DueWords } from './page/due-words.tsx'
import './jobs.css'
import { JobStateMark } from './job-state-mark.tsx'

interface Props {
  readonly job: JobSummary
  readonly onOpen: () => void
  /** Where the list around does not say it. */
  readonly showsState?: boolean
  readonly isCurrent?: boolean
}

/** A job in a list: what it is, where, when it is due, and how far it is. */
export function JobCard({ job, onOpen, showsState = false, isCurrent = false }: Props) {
  const { title, kind, poles, crew, state, stepsDone, deviations, reason } = job
  const [first = ''] = poles
  const hasBegun = stepsDone > 0 || state === 'in the field' || state === 'work done'
  return (
    <ListRow
      isCurrent={isCurrent}
      onChoose={onOpen}
      onPreview={(isOn) => hoverPole(isOn ? first : null)}
    >
      <strong className="job-card-title">{title}</strong>
      {showsState && <JobStateMark state={state} />}
      <span>
        {KIND_WORDS[kind]}, {polesInWords(poles)}
      </span>
      <span>
        <DueWords job={job} />
        {crew !== '' && <span className="soft">; {crew}</span>}
      </span>
      {state === 'returned' && reason !== '' && <span>Because: {reason}</span>}
      {hasBegun && state !== 'closed' && <span className="soft">{progressInWords(job)}</span>}
      {deviations > 0 && <span>{counted(deviations, 'deviation')}</span>}
    </ListRow>
  )
}
