import { useState } from 'react'
import type { BankWork, ExpectedCase, JobPlan } from '#domain/jobs/job-plan.ts'
import { ExpectedTable } from '../../jobs/plan/expected-table.tsx'
import { useShownCaseId } from '../../state/solutions.ts'
import { Field } from '../../ui/field.tsx'
import { ReadOffForm } from './read-off-form.tsx'

interface Props {
  readonly jobId: string
  readonly plan: JobPlan
  readonly bank: BankWork
}

/** What meters at the bank should show: in a case of the plan, and for what the crew reads off. */
export function JobReadings({ jobId, plan, bank }: Props) {
  const shownCaseId = useShownCaseId()
  const [chosenId, setChosenId] = useState<string | null>(null)
  const { expected, notes } = plan
  const chosen = expected.find(({ caseId }) => caseId === (chosenId ?? shownCaseId)) ?? expected[0]
  if (!chosen) {
    return (
      <div className="stack">
        <p>No case of this feeder could be solved with this bank, so there is nothing to expect.</p>
        {notes.map((note) => (
          <p key={note}>{note}</p>
        ))}
      </div>
    )
  }
  return (
    <div className="stack">
      <CaseChoice expected={expected} chosen={chosen} onChoose={setChosenId} />
      <ExpectedTable expected={[chosen]} />
      <ReadOffForm jobId={jobId} bank={bank} near={chosen} />
    </div>
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
