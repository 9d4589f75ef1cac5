import { JOB_KINDS } from '#domain/jobs/job-kind.ts'
import { KIND_WORDS } from '../../jobs/job-words.ts'
import { Field } from '../../ui/field.tsx'
import { BANK_STANDS, type OrderBody } from './order-draft.ts'

interface Props {
  readonly body: OrderBody
  readonly onType: (part: Partial<OrderBody>) => void
}

/** Name of an order, what it is for, and where it comes from. */
export function OrderHead({ body: { name, forKinds, bankAtStart, source }, onType }: Props) {
  return (
    <>
      <Field label="Name">
        {(control) => (
          <input
            {...control}
            className="input"
            value={name}
            maxLength={120}
            onChange={({ target }) => onType({ name: target.value })}
          />
        )}
      </Field>
      <fieldset className="order-kinds">
        <legend>For jobs of these kinds</legend>
        {JOB_KINDS.map((kind) => (
          <label key={kind} className="order-check">
            <input
              type="checkbox"
              checked={forKinds.includes(kind)}
              onChange={({ target }) =>
                onType({
                  forKinds: JOB_KINDS.filter((other) =>
                    other === kind ? target.checked : forKinds.includes(other),
                  ),
                })
              }
            />
            {KIND_WORDS[kind]}
          </label>
        ))}
      </fieldset>
      <Field
        label="How the bank stands at the start"
        hint="Where a bank is set, none stands yet: leave it at “not said”."
      >
        {(control) => (
          <select
            {...control}
            className="input"
            value={bankAtStart ?? ''}
            onChange={({ target }) =>
              onType({ bankAtStart: BANK_STANDS.find((one) => one === target.value) ?? null })
            }
          >
            <option value="">not said: as its first switch takes it to stand</option>
            <option value="in service">in service</option>
            <option value="bypassed">out of service: bypassed, the units off the line</option>
          </select>
        )}
      </Field>
      <Field label="Where it comes from" hint="The procedure of the utility, with its number.">
        {(control) => (
          <textarea
            {...control}
            className="input"
            rows={2}
            value={source}
            maxLength={600}
            onChange={({ target }) => onType({ source: target.value })}
          />
        )}
      </Field>
    </>
  )
}
