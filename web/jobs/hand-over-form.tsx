import { type FormEvent, useState } from 'react'
import type { Job, JobOrigin } from '#contract/jobs.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import { useJobChanges } from '../api/jobs.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { BirdWorkField, NeutralSideField } from './hand-over-choices.tsx'
import {
  askedOfHandOver,
  bodyOfHandOver,
  faultsOfHandOver,
  type HandOverDraft,
  handOverDrafts,
  kindOfOrigin,
  newHandOver,
} from './hand-over-draft.ts'
import { JobHeadFields } from './job-head-fields.tsx'
import './jobs.css'

interface Props {
  /** Names the form among the drafts. */
  readonly draftKey: string
  /** What is handed over, in the middle of a sentence: "proposal “East bank”". */
  readonly what: string
  readonly origin: JobOrigin
  /** Index among the banks of a proposal. */
  readonly bank?: number
  readonly suggestedTitle: string
  readonly suggestedDue?: string
  readonly onDrafted: (job: Job) => void
  readonly onGiveUp: () => void
}

/** Asks what the crew should know beside the plan, then has the job drafted. */
export function HandOverForm(props: Props) {
  const { draftKey, what, origin, bank = 0, onDrafted, onGiveUp } = props
  const { suggestedTitle, suggestedDue = '' } = props
  const feederId = useFeeder().feeder.header.id
  const { units } = useSelection()
  const draft = handOverDrafts.use(draftKey) ?? newHandOver(suggestedTitle, suggestedDue)
  const keep = (part: Partial<HandOverDraft>) =>
    handOverDrafts.keep(draftKey, { ...draft, ...part })
  const { draft: drafting } = useJobChanges(feederId)
  const faults = faultsOfHandOver(draft, units)
  const isFaulty = draft.title.trim() === '' || faults.loopOhm !== null || faults.elevation !== null
  const submit = (event: FormEvent) => {
    event.preventDefault()
    if (isFaulty) return
    const goOn = (job: Job) => {
      handOverDrafts.keep(draftKey, null)
      onDrafted(job)
    }
    // As a promise, since the new job in the list may take this form away before it is answered.
    // A refusal is shown from the state of the request.
    void drafting
      .mutateAsync(bodyOfHandOver(draft, origin, bank, units))
      .then(goOn, () => undefined)
  }
  return (
    <form className="stack job-form" aria-label={`Hand over ${what}`} noValidate onSubmit={submit}>
      <h3>What the crew is told</h3>
      <JobHeadFields fields={draft} onType={keep} />
      <Choices kind={kindOfOrigin(origin)} draft={draft} onType={keep} />
      {drafting.error && <ErrorNote title="No job was drafted." error={drafting.error} />}
      {drafting.isPending && (
        <p role="status">
          Drafting: kit, hazards, steps, and the readings to expect, from the power flow of every
          load case…
        </p>
      )}
      <div className="row">
        <Button type="submit" look="main" disabled={drafting.isPending}>
          {drafting.isPending ? 'Drafting…' : 'Draft the job'}
        </Button>
        <Button
          disabled={drafting.isPending}
          onClick={() => {
            drafting.reset()
            onGiveUp()
          }}
        >
          Not now
        </Button>
      </div>
    </form>
  )
}

interface FiguresProps {
  readonly draft: HandOverDraft
  readonly onType: (part: Partial<HandOverDraft>) => void
}

/** What is asked for this kind of work alone. */
function Choices({ kind, draft, onType }: FiguresProps & { readonly kind: JobKind }) {
  const asked = askedOfHandOver(kind)
  return (
    <>
      {asked.birdWork && (
        <BirdWorkField
          kind={kind}
          value={draft.birdWork}
          onType={(birdWork) => onType({ birdWork })}
        />
      )}
      {asked.neutralSide && (
        <NeutralSideField
          value={draft.neutralSide}
          onType={(neutralSide) => onType({ neutralSide })}
        />
      )}
      {asked.bank && <BankFigures draft={draft} onType={onType} />}
    </>
  )
}

function BankFigures({ draft, onType }: FiguresProps) {
  const { units } = useSelection()
  const faults = faultsOfHandOver(draft, units)
  const [wasTyped] = useState(draft.loopOhm !== '' || draft.elevation !== '')
  return (
    <details className="record-fold" open={wasTyped}>
      <summary>Figures for bypass and approach</summary>
      <div className="job-fields">
        <Field
          label="Loop of a closed bypass"
          unit="Ω"
          hint="The utility’s figure. Left empty: an assumption, named in the plan."
          fault={faults.loopOhm}
        >
          {(control) => (
            <input
              {...control}
              className="input"
              inputMode="decimal"
              value={draft.loopOhm}
              onChange={({ target }) => onType({ loopOhm: target.value })}
            />
          )}
        </Field>
        <Field
          label="Height above sea level"
          unit={units === 'us' ? 'ft' : 'm'}
          hint="Approach distances grow with it."
          fault={faults.elevation}
        >
          {(control) => (
            <input
              {...control}
              className="input"
              inputMode="numeric"
              value={draft.elevation}
              onChange={({ target }) => onType({ elevation: target.value })}
            />
          )}
        </Field>
      </div>
    </details>
  )
}
