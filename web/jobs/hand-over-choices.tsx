import type { JobKind } from '#domain/jobs/job-kind.ts'
import { takesBirdWork } from '#domain/jobs/takes-bird-work.ts'
import { Field } from '../ui/field.tsx'
import type { HandOverDraft } from './hand-over-draft.ts'

interface Props<Value> {
  readonly value: Value
  readonly onType: (value: Value) => void
}

type NeutralSide = HandOverDraft['neutralSide']

const NEUTRAL_SIDE: readonly { value: NeutralSide; words: string; means: string }[] = [
  {
    value: null,
    words: 'As the bank that stands there, else solid',
    means: 'Where no bank stands now, SL of each unit is joined to the neutral for good.',
  },
  {
    value: 'solid',
    words: 'Solid: no switch',
    means: 'SL of each unit is joined to the neutral for good.',
  },
  {
    value: 'switched',
    words: 'A disconnect switch at each unit',
    means: 'A switch between SL and the neutral of each unit goes into kit, drawing and record.',
  },
]

/** Whether the units that are set get a switch between SL terminal and neutral. */
export function NeutralSideField({ value, onType }: Props<NeutralSide>) {
  return (
    <ChoiceOfMeaning
      label="Neutral side of the units that are set"
      options={NEUTRAL_SIDE}
      value={value}
      onType={onType}
    />
  )
}

type BirdWork = HandOverDraft['birdWork']

const TAKEN =
  'Where pairs stand open for the design bird, the cheapest measures that close them go into plan and kit.'
const LEFT = 'Pairs that stand open stay open; nothing for birds goes into plan or kit.'

/** Whether pairs that stand open at the poles are closed on the same visit. */
export function BirdWorkField({
  kind,
  value,
  onType,
}: Props<BirdWork> & { readonly kind: JobKind }) {
  const isUsual = takesBirdWork(kind)
  return (
    <ChoiceOfMeaning
      label="Bird work on the same visit"
      options={[
        {
          value: null,
          words: isUsual ? 'Take it along, as is usual here' : 'Leave it, as is usual here',
          means: isUsual ? TAKEN : LEFT,
        },
        { value: 'take along', words: 'Take it along', means: TAKEN },
        { value: 'leave', words: 'Leave it', means: LEFT },
      ]}
      value={value}
      onType={onType}
    />
  )
}

interface ChoiceProps<Value extends string | null> extends Props<Value> {
  readonly label: string
  readonly options: readonly { value: Value; words: string; means: string }[]
}

/** A choice that says beneath what the chosen one means. */
function ChoiceOfMeaning<Value extends string | null>({
  label,
  options,
  value,
  onType,
}: ChoiceProps<Value>) {
  const chosen = options.find((option) => option.value === value)
  return (
    <Field label={label} hint={chosen?.means ?? ''}>
      {(control) => (
        <select
          {...control}
          className="input"
          value={value ?? ''}
          onChange={({ target }) => {
            const next = options.find((option) => (option.value ?? '') === target.value)
            if (next) onType(next.value)
          }}
        >
          {options.map((option) => (
            <option key={option.words} value={option.value ?? ''}>
              {option.words}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
