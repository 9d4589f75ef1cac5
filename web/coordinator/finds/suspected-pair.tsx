import { useMemo } from 'react'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { contactPairs } from '#domain/avian/pole-top/contact-pairs.ts'
import { pairInWords } from '#domain/avian/pole-top/pair-words.ts'
import { isElectrode, type Part } from '#domain/avian/pole-top/part.ts'
import type { BirdSpecies } from '#domain/avian/species/bird-species.ts'
import { birdSpecies, designSpecies, sizeOf } from '#domain/avian/species/shipped-species.ts'
import '../../birds/birds.css'
import { drawnPairs, numbered } from '../../birds/drawn-pairs.ts'
import type { NumberedPair } from '../../birds/pair-labels.ts'
import { PoleTopViews } from '../../birds/pole-top-views.tsx'
import type { Fields } from '../../record/merge-fields.ts'
import { useSelection } from '../../state/selection.ts'
import { Field } from '../../ui/field.tsx'
import { FieldControlOf } from './field-control.tsx'
import { SUSPECTED_FIELDS } from './find-fields.ts'
import { pickPart } from './pick-part.ts'
import { usePoleTop } from './use-pole-top.ts'

interface Props {
  readonly typed: Fields
  readonly settings: BirdSettings | undefined
  readonly onType: (change: Fields) => void
}

interface PairProps extends Props {
  readonly parts: readonly Part[]
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

function PairChoice({ parts, typed, settings, onType }: PairProps) {
  const { units } = useSelection()
  const { species = '', suspectedPartA = '', suspectedPartB = '' } = typed
  const { pairs, bird } = useMemo(
    () => pairsFor(parts, species, settings),
    [parts, species, settings],
  )
  const suspected = new Set([suspectedPartA, suspectedPartB])
  const chosen = pairs.find(
    ({ pair: { partA, partB } }) => suspected.has(partA.id) && suspected.has(partB.id),
  )
  return (
    <>
      <PoleTopViews
        parts={parts}
        drawn={drawnPairs(pairs, chosen?.number ?? null)}
        lit={(partId) => (suspected.has(partId) ? 'pointed at' : 'plain')}
        litPair={chosen?.number ?? null}
        bird={null}
        size={sizeOf(bird, settings)}
        birdName={bird.name}
        units={units}
        picking={{
          picked: suspected,
          onPick: (partId) => onType({ ...pickPart({ suspectedPartA, suspectedPartB }, partId) }),
        }}
      />
      <p className="small soft">
        Press the two parts on the drawing, or choose them from the lists below.
      </p>
      <Field
        label="Suspected pair"
        hint={
          pairs.length === 0
            ? `By the drawing ${bird.name} bridges no pair on this pole. Choose two parts below.`
            : `${pairs.length} that ${bird.name} can bridge, numbered as on the drawing, tightest first.`
        }
      >
        {(control) => (
          <select
            {...control}
            className="input"
            value={chosen?.number ?? ''}
            onChange={({ target }) => {
              const pair = pairs.find(({ number }) => String(number) === target.value)?.pair
              onType({
                suspectedPartA: pair?.partA.id ?? '',
                suspectedPartB: pair?.partB.id ?? '',
              })
            }}
          >
            <option value="">not said</option>
            {pairs.map(({ number, pair }) => (
              <option key={number} value={number}>
                {number}: {pairInWords(pair, bird.name, units === 'us')}
              </option>
            ))}
          </select>
        )}
      </Field>
    </>
  )
}

/** Pairs for the species that was found, or for the one that poles are held against. */
function pairsFor(
  parts: readonly Part[],
  species: string,
  settings: BirdSettings | undefined,
): { pairs: readonly NumberedPair[]; bird: BirdSpecies } {
  const words = species.trim().toLowerCase()
  const known = birdSpecies(settings).find(({ name }) => name.toLowerCase() === words)
  const bird = known ?? designSpecies(settings)
  return { pairs: numbered(contactPairs(parts, sizeOf(bird, settings))), bird }
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
