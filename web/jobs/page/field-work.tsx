import type { Job, KeptEntry } from '#contract/jobs.ts'
import { HistoryButton } from '../../record/history-button.tsx'
import { counted } from '../../state/format.ts'
import { isAhead } from '../job-words.ts'
import { EntryList } from './entry-list.tsx'
import { isRemarkable, stepOf, toldEntries } from './told-entries.ts'

interface Props {
  readonly job: Job
  readonly entries: readonly KeptEntry[]
  /** What stands in the way of the end of the work. */
  readonly missing: readonly string[]
}

/** What was done in the field: first what is missing and what was done otherwise, then all of it. */
export function FieldWork({ job, entries, missing }: Props) {
  const told = toldEntries(job.plan, entries)
  const remarkable = told.filter(isRemarkable)
  const mustBeComplete = !isAhead(job.state)
  return (
    <section className="job-part" aria-label="Field work">
      <h3>Field work</h3>
      {missing.length > 0 && (
        <div className={mustBeComplete ? 'state-note state-note-error' : 'state-note'}>
          <strong>Still missing</strong>
          <ul className="job-lines">
            {missing.map((what) => (
              <li key={what}>{what}</li>
            ))}
          </ul>
        </div>
      )}
      {remarkable.length > 0 ? (
        <>
          <h4>{counted(remarkable.length, 'thing')} to look at first</h4>
          <EntryList
            label="Deviations, steps left out and doubtful readings"
            entries={remarkable}
          />
        </>
      ) : (
        told.length > 0 && <p>No deviation, no step left out, no doubtful reading.</p>
      )}
      {told.length > 0 && (
        <details className="record-fold">
          <summary>All {counted(told.length, 'entry', 'entries')}, in their order</summary>
          <EntryList label="Entries in their order" entries={told} />
        </details>
      )}
      {told.length > 0 && (
        <HistoryButton
          thing={{ subject: 'job-entry', subjectId: job.id, feederId: job.feederId }}
          name="the field work"
          stepText={(pole, stepId) => stepOf(job.plan, pole, stepId)?.text}
        />
      )}
    </section>
  )
}
