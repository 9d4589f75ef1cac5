import type { Verdict } from '#domain/jobs/judge-reading.ts'
import type { Asked } from '#domain/jobs/step-sequence.ts'
import { Button } from '../../ui/button.tsx'
import { Field, type FieldControl } from '../../ui/field.tsx'
import { otherSign } from './other-sign.ts'
import { VerdictNote } from './verdict-note.tsx'

interface Props {
  readonly asked: Asked
  readonly typed: string | boolean | undefined
  readonly fault?: string
  readonly verdict?: Verdict
  readonly onType: (typed: string | boolean) => void
  /** What a person does where the work cannot go on; left out where they may not. */
  readonly onGiveBack?: (asked: Asked) => void
}

/** One thing that a step asks for, with what its reading means. */
export function AskedField({ asked, typed, fault, verdict, onType, onGiveBack }: Props) {
  return (
    <div className="asked" data-ask={asked.id} data-kind={asked.kind}>
      {asked.kind === 'yes or no' && (
        <ChoiceButtons
          label={askedWords(asked)}
          options={YES_NO}
          chosen={typed === true ? 'Yes' : typed === false ? 'No' : null}
          onChoose={(option) => onType(option === 'Yes')}
        />
      )}
      {asked.kind === 'choice' && (
        <ChoiceButtons
          label={askedWords(asked)}
          options={asked.options}
          chosen={typeof typed === 'string' ? typed : null}
          onChoose={onType}
        />
      )}
      {(asked.kind === 'number' || asked.kind === 'text') && (
        <Field
          label={asked.what}
          hint={asked.isNeeded ? undefined : 'May be left empty.'}
          unit={asked.kind === 'number' ? asked.unit : undefined}
          fault={fault}
        >
          {(control) => (
            <Typed
              asked={asked}
              control={control}
              typed={typeof typed === 'string' ? typed : ''}
              onType={onType}
            />
          )}
        </Field>
      )}
      {verdict && !isPlainYes(asked, verdict) && <VerdictNote verdict={verdict} />}
      {onGiveBack && verdict?.isStop && typed === false && (
        <Button className="asked-give-back" onClick={() => onGiveBack(asked)}>
          It cannot be put right here: give the job back
        </Button>
      )}
    </div>
  )
}

/** The pressed button says as much. */
function isPlainYes({ kind, judge }: Asked, { verdict, more }: Verdict): boolean {
  return kind === 'yes or no' && judge === 'must be yes' && verdict === 'good' && !more
}

const YES_NO = ['Yes', 'No'] as const

interface TypedProps {
  readonly asked: Asked
  readonly control: FieldControl
  readonly typed: string
  readonly onType: (typed: string) => void
}

function Typed({ asked, control, typed, onType }: TypedProps) {
  const common = {
    ...control,
    className: 'input work-input',
    autoComplete: 'off',
    value: typed,
  } as const
  if (asked.kind !== 'number') {
    return <input {...common} maxLength={400} onChange={({ target }) => onType(target.value)} />
  }
  const isTap = isTapReading(asked)
  return (
    <span className="work-number">
      {isTap && (
        <Button
          className="work-sign"
          aria-label={`Lower instead of raise: change the sign of “${asked.what}”`}
          onClick={() => onType(otherSign(typed))}
        >
          ±
        </Button>
      )}
      <input
        {...common}
        inputMode={isTap ? 'numeric' : 'decimal'}
        onChange={({ target }) => onType(target.value)}
      />
    </span>
  )
}

/** Keypads of phones have no minus; positions below neutral need one. */
function isTapReading({ judge, ...asked }: Asked): boolean {
  return (
    judge === 'position indicator at neutral' ||
    judge === 'control readout at neutral' ||
    (asked.kind === 'number' && /tap|step|position/i.test(asked.unit))
  )
}

function askedWords({ what, isNeeded }: Asked): string {
  return isNeeded ? what : `${what} (may be left empty)`
}

interface ChoiceProps {
  readonly label: string
  readonly options: readonly string[]
  readonly chosen: string | null
  readonly onChoose: (option: string) => void
}

function ChoiceButtons({ label, options, chosen, onChoose }: ChoiceProps) {
  return (
    <fieldset className="work-choices">
      <legend>{label}</legend>
      {options.map((option) => (
        <Button
          key={option}
          className="work-choice"
          isPressed={chosen === option}
          onClick={() => onChoose(option)}
        >
          {option}
        </Button>
      ))}
    </fieldset>
  )
}
