import { ChangeIncidentBody, type IncidentRecord } from '#contract/incidents.ts'
import { type FollowUpStep, followUpRule, followUpSteps } from '#domain/avian/account/follow-up.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { useIncidentChanges } from '../../api/incidents.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { STEP_WORDS, stepInWords } from './find-words.ts'
import { ruleInWords } from './proposed-dates.tsx'
import { StepMark } from './step-mark.tsx'

const DONE_FIELD = {
  visit: 'visitedOn',
  fix: 'fixedOn',
  inspection: 'inspectedOn',
  neighbours: 'neighboursDoneOn',
} as const

interface Props {
  readonly find: IncidentRecord
  readonly settings: BirdSettings | undefined
  readonly today: string
  readonly mayChange: boolean
}

/** What follows a find, how it stands, and a step to write down that it was done today. */
export function FollowUpSteps({ find, settings, today, mayChange }: Props) {
  const { change } = useIncidentChanges(useFeeder().feeder.header.id)
  const rule = followUpRule(find.species, settings)
  const steps = followUpSteps(find, rule.days, today)
  const noteDone = (step: FollowUpStep) => {
    const body = ChangeIncidentBody.parse({ ...find, [DONE_FIELD[step.step]]: today })
    change.mutate({ id: find.id, body })
  }
  return (
    <section className="stack" aria-label="What follows">
      <h4>What follows</h4>
      <ul className="step-list">
        {steps.map((step) => (
          <li key={step.step}>
            <span className="step-words">
              <StepMark state={step.state} />
              <span className="first-capital">{stepInWords(step)}</span>
            </span>
            {mayChange && step.doneOn === null && (
              <Button
                aria-label={`${STEP_WORDS[step.step]}: done today`}
                disabled={change.isPending}
                onClick={() => noteDone(step)}
              >
                Done today
              </Button>
            )}
          </li>
        ))}
      </ul>
      {change.error && <ErrorNote title="Not written down" error={change.error} />}
      {steps.some(({ isProposed }) => isProposed) && (
        <p className="soft small">{ruleInWords(rule)}</p>
      )}
      <p>{agencyInWords(find)}</p>
    </section>
  )
}

function agencyInWords({ agency, agencyToldOn, agencyToldBy }: IncidentRecord): string {
  if (!agencyToldOn) {
    return 'Agency: nobody wrote down that it was told. For eagles and listed species tell it the same day (planning default, assumption; permits may demand it).'
  }
  const by = agencyToldBy ? ` by ${agencyToldBy}` : ''
  return `Agency: ${agency ?? 'told'}, ${agencyToldOn}${by}.`
}
