import { JUDGES } from '#domain/jobs/step-sequence.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { Check } from './check.tsx'
import { ASK_KINDS, type AskDraft } from './order-draft.ts'

interface Props {
  readonly asked: AskDraft
  readonly number: number
  readonly onType: (part: Partial<AskDraft>) => void
  readonly onRemove: () => void
}

/** One thing that a step asks for, and how it is judged. */
export function AskFields({ asked, number, onType, onRemove }: Props) {
  const { what, kind, isNeeded, judge, unit, options } = asked
  return (
    <fieldset className="order-ask">
      <legend>Reading {number}</legend>
      <Field label="What is read or said">
        {(control) => (
          <input
            {...control}
            className="input"
            maxLength={200}
            value={what}
            onChange={({ target }) => onType({ what: target.value })}
          />
        )}
      </Field>
      <div className="job-fields">
        <Field label="As">
          {(control) => (
            <select
              {...control}
              className="input"
              value={kind}
              onChange={({ target }) =>
                onType({ kind: ASK_KINDS.find((name) => name === target.value) ?? kind })
              }
            >
              {ASK_KINDS.map((name) => (
                <option key={name} value={name}>
                  {name}
                </option>
              ))}
            </select>
          )}
        </Field>
        {kind === 'number' && (
          <Field label="Unit">
            {(control) => (
              <input
                {...control}
                className="input"
                maxLength={20}
                value={unit}
                onChange={({ target }) => onType({ unit: target.value })}
              />
            )}
          </Field>
        )}
        <Field label="Judged by">
          {(control) => (
            <select
              {...control}
              className="input"
              value={judge ?? ''}
              onChange={({ target }) =>
                onType({ judge: JUDGES.find((name) => name === target.value) ?? null })
              }
            >
              <option value="">nothing: kept as it is entered</option>
              {JUDGES.map((name) => (
                <option key={name} value={name}>
                  {name}
                </option>
              ))}
            </select>
          )}
        </Field>
      </div>
      {kind === 'choice' && (
        <Field label="Options" hint="One a line.">
          {(control) => (
            <textarea
              {...control}
              className="input"
              rows={3}
              value={options}
              onChange={({ target }) => onType({ options: target.value })}
            />
          )}
        </Field>
      )}
      <Check
        label="Needed: the step is not passed without it"
        isOn={isNeeded}
        onChange={(isOn) => onType({ isNeeded: isOn })}
      />
      <div>
        <Button look="plain" aria-label={`Do not ask for reading ${number}`} onClick={onRemove}>
          Do not ask for it
        </Button>
      </div>
    </fieldset>
  )
}
