import { SIGNERS } from '#domain/jobs/step-sequence.ts'
import { UNIT_ACTIONS } from '#domain/jobs/unit-action.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { AskFields } from './ask-fields.tsx'
import { Check } from './check.tsx'
import { addAsk } from './edit-steps.ts'
import { BANK_SORTS, type StepDraft } from './order-draft.ts'

interface Props {
  readonly step: StepDraft
  readonly onType: (part: Partial<StepDraft>) => void
}

const MOST_ASKS = 12

/** All of one step. */
export function StepFields({ step, onType }: Props) {
  const { text, hazard, isHoldPoint, each, asks, mayBeLeftOut } = step
  return (
    <>
      <Field label="What is done">
        {(control) => (
          <textarea
            {...control}
            className="input"
            rows={3}
            maxLength={600}
            value={text}
            onChange={({ target }) => onType({ text: target.value })}
          />
        )}
      </Field>
      <Field label="Hazard" hint="What can hurt here; left empty where nothing is to be said.">
        {(control) => (
          <textarea
            {...control}
            className="input"
            rows={2}
            maxLength={400}
            value={hazard}
            onChange={({ target }) => onType({ hazard: target.value })}
          />
        )}
      </Field>
      <Check
        label="Hold point: nothing after it is done before it is passed with its readings"
        isOn={isHoldPoint}
        onChange={(isOn) => onType({ isHoldPoint: isOn })}
      />
      <Check
        label="May be left out, with a reason"
        isOn={mayBeLeftOut}
        onChange={(isOn) => onType({ mayBeLeftOut: isOn })}
      />
      <Check
        label="Done once for each unit of the bank"
        isOn={each === 'unit'}
        onChange={(isOn) => onType({ each: isOn ? 'unit' : 'once' })}
      />
      <StepChoices step={step} onType={onType} />
      {asks.map((asked, index) => (
        <AskFields
          key={asked.id}
          asked={asked}
          number={index + 1}
          onType={(part) =>
            onType({
              asks: asks.map((other) => (other === asked ? { ...asked, ...part } : other)),
            })
          }
          onRemove={() => onType({ asks: asks.filter((other) => other !== asked) })}
        />
      ))}
      {asks.length < MOST_ASKS && (
        <div>
          <Button onClick={() => onType({ asks: addAsk(asks) })}>Ask for a reading</Button>
        </div>
      )}
    </>
  )
}

const AS_FOUND = ['not said', 'as it stands before the work', 'as it is to stand'] as const
/** In the order of the words. */
const AS_FOUND_VALUES = [null, true, false] as const

/** What the step is about, beside its words. */
function StepChoices({ step, onType }: Props) {
  const { action, signedBy, onlyWith, readsAsFound, asks } = step
  return (
    <div className="job-fields">
      <Field label="What it does to the unit or its switches">
        {(control) => (
          <select
            {...control}
            className="input"
            value={action ?? ''}
            onChange={({ target }) =>
              onType({ action: UNIT_ACTIONS.find((name) => name === target.value) ?? null })
            }
          >
            <option value="">nothing</option>
            {UNIT_ACTIONS.map((name) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label="Signed by">
        {(control) => (
          <select
            {...control}
            className="input"
            value={signedBy}
            onChange={({ target }) =>
              onType({ signedBy: SIGNERS.find((name) => name === target.value) ?? signedBy })
            }
          >
            {SIGNERS.map((name) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label="Done at" hint={onlyWith === null ? '' : 'At other banks it is left out.'}>
        {(control) => (
          <select
            {...control}
            className="input"
            value={onlyWith ?? ''}
            onChange={({ target }) =>
              onType({ onlyWith: BANK_SORTS.find((sort) => sort === target.value) ?? null })
            }
          >
            <option value="">every bank</option>
            {BANK_SORTS.map((sort) => (
              <option key={sort} value={sort}>
                banks with {sort} alone
              </option>
            ))}
          </select>
        )}
      </Field>
      {asks.length > 0 && (
        <Field
          label="Its volts and amperes are held against the bank"
          hint="As it stands: where they are read before anything is changed."
        >
          {(control) => (
            <select
              {...control}
              className="input"
              value={AS_FOUND_VALUES.indexOf(readsAsFound)}
              onChange={({ target }) =>
                onType({ readsAsFound: AS_FOUND_VALUES[Number(target.value)] ?? null })
              }
            >
              {AS_FOUND.map((words, index) => (
                <option key={words} value={index}>
                  {words}
                </option>
              ))}
            </select>
          )}
        </Field>
      )}
    </div>
  )
}
