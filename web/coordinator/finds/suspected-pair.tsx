import { useMemo } from 'react'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { ContactPair } from '#domain/avian/pole-top/contact-pair.ts'
import { contactPairs, pairId } from '#domain/avian/pole-top/contact-pairs.ts'
import { pairInWords } from '#domain/avian/pole-top/pair-words.ts'
import { isElectrode, type Part } from '#domain/avian/pole-top/part.ts'
import { birdSpecies, designSpecies, sizeOf } from '#domain/avian/species/shipped-species.ts'
import type { Fields } from '../../record/merge-fields.ts'
import { useSelection } from '../../state/selection.ts'
import { Field } from '../../ui/field.tsx'
import { FieldControlOf } from './field-control.tsx'
import { SUSPECTED_FIELDS } from './find-fields.ts'
import { usePoleTop } from './use-pole-top.ts'

interface Props {
  readonly typed: Fields
  readonly settings: BirdSettings | undefined
  readonly onType: (change: Fields) => void
}

/** The pair of parts that the bird is thought to have touched, of those on the pole. */
export function SuspectedPair({ typed, settings, onType }: Props) {
  const top = usePoleTop(typed.pole ?? '')
  if (!top) {
    return (
      <>
        <p className="soft small">
          {typed.pole
            ? 'The top of this pole is not known, so name the parts in words.'
            : 'With a pole given, the pair can be chosen from its parts.'}
        </p>
        {SUSPECTED_FIELDS.map((field) => (
          <FieldControlOf
            key={field.key}
            field={field}
            value={typed[field.key] ?? ''}
            onType={(value) => onType({ [field.key]: value })}
          />
        ))}
      </>
    )
  }
  return (
    <>
      <PairChoice parts={top.parts} typed={typed} settings={settings} onType={onType} />
      {SUSPECTED_FIELDS.map(({ key, label }) => (
        <PartChoice
          key={key}
          label={label}
          parts={top.parts}
          value={typed[key] ?? ''}
          onChoose={(partId) => onType({ [key]: partId })}
        />
      ))}
    </>
  )
}

function PairChoice({
  parts,
  typed,
  settings,
  onType,
}: Props & { readonly parts: readonly Part[] }) {
  const { units } = useSelection()
  const { species = '', suspectedPartA, suspectedPartB } = typed
  const { pairs, name } = useMemo(
    () => pairsFor(parts, species, settings),
    [parts, species, settings],
  )
  const chosen = pairs.find(({ partA, partB }) =>
    [partA.id, partB.id].every((id) => id === suspectedPartA || id === suspectedPartB),
  )
  return (
    <Field
      label="Suspected pair"
      hint={
        pairs.length === 0
          ? `By the drawing ${name} bridges no pair on this pole. Choose two parts below.`
          : `${pairs.length} that ${name} can bridge by the drawing, tightest first.`
      }
    >
      {(control) => (
        <select
          {...control}
          className="input"
          value={chosen ? pairId(chosen) : ''}
          onChange={({ target }) => {
            const pair = pairs.find((one) => pairId(one) === target.value)
            onType({
              suspectedPartA: pair?.partA.id ?? '',
              suspectedPartB: pair?.partB.id ?? '',
            })
          }}
        >
          <option value="">not said</option>
          {pairs.map((pair) => (
            <option key={pairId(pair)} value={pairId(pair)}>
              {pairInWords(pair, name, units === 'us')}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

/** Pairs for the species that was found, or for the one that poles are held against. */
function pairsFor(
  parts: readonly Part[],
  species: string,
  settings: BirdSettings | undefined,
): { pairs: readonly ContactPair[]; name: string } {
  const words = species.trim().toLowerCase()
  const known = birdSpecies(settings).find(({ name }) => name.toLowerCase() === words)
  const bird = known ?? designSpecies(settings)
  return { pairs: contactPairs(parts, sizeOf(bird, settings)), name: bird.name }
}

interface PartProps {
  readonly label: string
  readonly parts: readonly Part[]
  readonly value: string
  readonly onChoose: (partId: string) => void
}

/** A part that the drawing no longer has stays as it was written. */
function PartChoice({ label, parts, value, onChoose }: PartProps) {
  const offered = parts.filter(isElectrode)
  const isGone = value !== '' && !offered.some(({ id }) => id === value)
  return (
    <Field label={label}>
      {(control) => (
        <select
          {...control}
          className="input"
          value={value}
          onChange={({ target }) => onChoose(target.value)}
        >
          <option value="">not said</option>
          {isGone && <option value={value}>{value}</option>}
          {offered.map((part) => (
            <option key={part.id} value={part.id}>
              {part.label}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
