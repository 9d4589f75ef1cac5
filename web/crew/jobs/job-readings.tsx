import { useState } from 'react'
import type { ExpectedCase, JobPlan } from '#domain/jobs/job-plan.ts'
import { ExpectedTable } from '../../jobs/plan/expected-table.tsx'
import { useShownCaseId } from '../../state/solutions.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { ReadOffForm } from './read-off-form.tsx'
import { type ReadingPart, readingParts } from './reading-parts.ts'
import '../work/work.css'

interface Props {
  readonly jobId: string
  readonly plan: JobPlan
  /** Of the step that stands open, or of the work as far as it is. */
  readonly partId: ReadingPart['id']
}

/**
 * What meters at the bank should show: before anything is changed or after it, in a case of the
 * plan, and for what the crew reads off.
 */
export function JobReadings({ jobId, plan, partId }: Props) {
  const [chosen, setChosen] = useState<ReadingPart['id'] | null>(null)
  const parts = readingParts(plan)
  const part = parts.find(({ id }) => id === (chosen ?? partId)) ?? parts[0]
  if (!part) {
    return (
      <div className="stack">
        <p>No case of this feeder could be solved with this bank, so there is nothing to expect.</p>
        {plan.notes.map((note) => (
          <p key={note}>{note}</p>
        ))}
      </div>
    )
  }
  return (
    <div className="stack">
      {parts.length > 1 && (
        <fieldset className="work-choices">
          <legend>When you read</legend>
          {parts.map(({ id, when }) => (
            <Button
              key={id}
              className="work-choice"
              isPressed={id === part.id}
              onClick={() => setChosen(id)}
            >
              {when}
            </Button>
          ))}
        </fieldset>
      )}
      {parts.length === 1 && part.when && <p>{part.when}:</p>}
      <PartReadings key={part.id} jobId={jobId} part={part} />
    </div>
  )
}

function PartReadings({ jobId, part }: { readonly jobId: string; readonly part: ReadingPart }) {
  const shownCaseId = useShownCaseId()
  const [chosenId, setChosenId] = useState<string | null>(null)
  const { cases } = part
  const chosen = cases.find(({ caseId }) => caseId === (chosenId ?? shownCaseId)) ?? cases[0]
  if (!chosen) return null
  return (
    <>
      <CaseChoice expected={cases} chosen={chosen} onChoose={setChosenId} />
      <ExpectedTable expected={[chosen]} />
      <ReadOffForm jobId={jobId} part={part} near={chosen} />
    </>
  )
}

interface ChoiceProps {
  readonly expected: readonly ExpectedCase[]
  readonly chosen: ExpectedCase
  readonly onChoose: (caseId: string) => void
}

function CaseChoice({ expected, chosen, onChoose }: ChoiceProps) {
  if (expected.length < 2) return null
  return (
    <Field label="Loading that is nearest to today’s">
      {(control) => (
        <select
          className="input"
          value={chosen.caseId}
          onChange={({ target }) => onChoose(target.value)}
          {...control}
        >
          {expected.map(({ caseId, caseName }) => (
            <option key={caseId} value={caseId}>
              {caseName}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
