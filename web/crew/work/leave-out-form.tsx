import type { Step } from '#domain/jobs/step-sequence.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { InTheWay } from './in-the-way.tsx'
import { SignFields } from './sign-fields.tsx'
import { openPoints, type StepDraft } from './step-draft.ts'

interface Props {
  readonly step: Step
  readonly draft: StepDraft
  readonly inTheWay: readonly string[]
  readonly onChange: (part: Partial<StepDraft>) => void
  readonly onEnter: () => void
}

/** A step that may be left out, with why and who says so. */
export function LeaveOutForm({ step, draft, inTheWay, onChange, onEnter }: Props) {
  return (
    <form
      className="stack"
      aria-label="Leave this step out"
      onSubmit={(event) => {
        event.preventDefault()
        onEnter()
      }}
    >
      <Field label="Why is it left out?" hint="The supervisor reads it.">
        {(control) => (
          <textarea
            {...control}
            className="input work-input"
            rows={3}
            maxLength={600}
            value={draft.why}
            onChange={({ target }) => onChange({ why: target.value })}
          />
        )}
      </Field>
      <SignFields
        signer={step.signedBy}
        signedBy={draft.signedBy}
        onSign={(signedBy) => onChange({ signedBy })}
      />
      <InTheWay sentences={inTheWay} />
      <Button type="submit" look="main" className="work-main">
        Left out, next step
      </Button>
      <Button onClick={() => onChange({ isLeavingOut: false })}>Do the step after all</Button>
    </form>
  )
}

const LEAST_LETTERS = 3

/** What is still to be said before the step is left out, in sentences. */
export function openToLeaveOut(step: Step, draft: StepDraft): string[] {
  const withoutReadings = openPoints({ ...step, asks: [] }, draft)
  if (draft.why.trim().length >= LEAST_LETTERS) return withoutReadings
  return ['Say in a few words why it is left out.', ...withoutReadings]
}
