import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { setAside } from '../../api/outbox.ts'
import { Button } from '../../ui/button.tsx'
import { draftOfEntry } from './draft-of-entry.ts'
import type { FieldEntry } from './fold-field-job.ts'
import { draftKey, stepDrafts } from './step-draft.ts'
import { shortened } from './step-words.ts'

interface Props {
  readonly jobId: string
  readonly plan: JobPlan
  readonly refused: readonly FieldEntry[]
}

/** Entries that the run does not allow, each with why and what can be done about it. */
export function RefusedEntries({ jobId, plan, refused }: Props) {
  if (refused.length === 0) return null
  return (
    <section className="refused stack" aria-label="Refused entries">
      <h3>Not taken into the record</h3>
      <ul className="stack">
        {refused.map((field) => (
          <RefusedEntry key={field.entry.id} jobId={jobId} plan={plan} field={field} />
        ))}
      </ul>
    </section>
  )
}

function RefusedEntry({
  jobId,
  plan,
  field,
}: Pick<Props, 'jobId' | 'plan'> & { field: FieldEntry }) {
  const { entry, why, itemId } = field
  const draft = draftOfEntry(entry)
  const correct = async () => {
    if (!draft || !('stepId' in entry)) return
    const { stepId, phase } = entry
    stepDrafts.keep(draftKey({ jobId, poleId: entry.pole, stepId, phase }), draft)
    if (itemId !== null) await setAside(itemId)
  }
  return (
    <li className="stack">
      <p>
        <strong>{entryTitle(plan, field)}</strong>
      </p>
      {why.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {itemId !== null && (
        <div className="work-pair">
          {draft && <Button onClick={() => void correct()}>Correct it and enter it again</Button>}
          <Button onClick={() => void setAside(itemId)}>Set it aside</Button>
        </div>
      )}
    </li>
  )
}

function entryTitle(plan: JobPlan, { entry }: FieldEntry): string {
  if (entry.kind === 'photo') return `Photo at pole ${entry.pole}: ${entry.what}`
  if (entry.kind === 'remark' || entry.kind === 'deviation') return shortened(entry.text)
  const work = plan.poles.find(({ pole }) => pole === entry.pole)
  const step = work?.sequence.steps.find(({ id }) => id === entry.stepId)
  const unit = entry.phase ? `, ${entry.phase} phase` : ''
  return `Pole ${entry.pole}${unit}: ${step ? shortened(step.text) : 'a step that is not planned'}`
}
