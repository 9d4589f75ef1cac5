import { Field } from '../../ui/field.tsx'
import type { AccountChoices } from './account-choices.ts'
import type { ShownAccount } from './use-account.ts'

interface Asked {
  readonly key: keyof AccountChoices
  readonly label: string
  readonly unit?: string
  readonly hint: string
}

const ASKED: readonly Asked[] = [
  {
    key: 'halfLifeDays',
    label: 'Half of the carcasses are gone after',
    unit: 'days',
    hint: 'Published figures differ widely: 7 days or less for small birds, months for eagles. Measure your own.',
  },
  { key: 'intervalDays', label: 'Between searches', unit: 'days', hint: 'On the same poles.' },
  {
    key: 'efficiencyPercent',
    label: 'A search finds, of what is there',
    unit: '%',
    hint: 'Experienced searchers found 75 % (68 to 83), new ones 67 % (Karoo, 2014; large birds).',
  },
  {
    key: 'searchedPercent',
    label: 'Poles that are searched',
    unit: '%',
    hint: 'Of all poles of the feeder.',
  },
]

/** What searches miss, each optional, and since when finds are recorded. */
export function DetectionInputs({ shown }: { readonly shown: ShownAccount }) {
  const { choices, faults, onChoose, accounted } = shown
  return (
    <section className="stack" aria-label="What searches miss">
      <h3>What searches miss</h3>
      <p className="soft small">
        Each is optional and shown in the working. Empty: nothing is corrected, and the true number
        is at least what was found. Kept for this browser tab.
      </p>
      {ASKED.map(({ key, label, unit, hint }) => (
        <Field
          key={key}
          label={label}
          hint={hint}
          {...(unit && { unit })}
          {...(faults[key] && { fault: faults[key] })}
        >
          {(control) => (
            <input
              {...control}
              className="input"
              inputMode="decimal"
              value={choices[key]}
              onChange={({ target }) => onChoose({ [key]: target.value })}
            />
          )}
        </Field>
      ))}
      <Field
        label="Finds are recorded since"
        hint={`Before and after are counted from it. Empty: ${accounted.watchedSince}, the year of the first find (assumption).`}
        {...(faults.watchedSince && { fault: faults.watchedSince })}
      >
        {(control) => (
          <input
            {...control}
            className="input"
            type="date"
            value={choices.watchedSince}
            onChange={({ target }) => onChoose({ watchedSince: target.value })}
          />
        )}
      </Field>
    </section>
  )
}
