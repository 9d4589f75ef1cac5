import { JUDGES, MOST_IF_NO_LETTERS } from '#domain/jobs/step-sequence.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { Check } from './check.tsx'
import { ASK_KINDS, type AskDraft, isLimit } from './order-draft.ts'

interface Props {
  readonly asked: AskDraft
  readonly number: number
  readonly onType: (part: Partial<AskDraft>) => void
  readonly onRemove: () => void
}

/** One thing that a step asks for, and how it is judged. */
export function AskFields({ asked, number, onType, onRemove }: Props) {
  const { what, kind, isNeeded, judge, unit, options, ifNo } = asked
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
      {kind === 'number' && <RangeFields asked={asked} onType={onType} />}
      {kind === 'yes or no' && judge === 'must be yes' && (
        <Field label="Said where it is no" hint="What a no means, and what to do then.">
          {(control) => (
            <textarea
              {...control}
              className="input"
              rows={2}
              maxLength={MOST_IF_NO_LETTERS}
              value={ifNo}
              onChange={({ target }) => onType({ ifNo: target.value })}
            />
          )}
        </Field>
      )}
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

const LIMITS = [
  { limit: 'least', label: 'Least that can be read' },
  { limit: 'most', label: 'Most that can be read' },
] as const

/** Between which figures a reading is possible; others are refused at the step. */
function RangeFields({ asked, onType }: Pick<Props, 'asked' | 'onType'>) {
  return (
    <div className="job-fields">
      {LIMITS.map(({ limit, label }) => (
        <Field
          key={limit}
          label={label}
          unit={asked.unit}
          hint="Left empty where there is none."
          fault={isLimit(asked[limit]) ? null : 'Type a number, as -16.'}
        >
          {(control) => (
            <input
              {...control}
              className="input"
              value={asked[limit]}
              onChange={({ target }) => onType({ [limit]: target.value })}
            />
          )}
        </Field>
      ))}
    </div>
  )
}
