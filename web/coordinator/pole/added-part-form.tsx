import { useState } from 'react'
import { PART_KINDS } from '#domain/avian/pole-top/part.ts'
import { AddedPart } from '#domain/avian/pole-top/pole-top-choice.ts'
import type { Units } from '../../state/address.ts'
import { Button } from '../../ui/button.tsx'
import { ChoiceField } from './choice-field.tsx'
import { lengthOfTyped } from './pole-top-draft.ts'
import { TextField } from './text-field.tsx'

interface Props {
  readonly units: Units
  /** Ids that are taken. */
  readonly taken: readonly string[]
  readonly onAdd: (part: AddedPart) => void
}

const PLACES = [
  ['fromX', 'From: across the line'],
  ['fromY', 'From: along the line'],
  ['fromZ', 'From: above the pole top'],
  ['toX', 'To: across the line'],
  ['toY', 'To: along the line'],
  ['toZ', 'To: above the pole top'],
] as const
type PlaceKey = (typeof PLACES)[number][0]

const POTENTIALS = ['A', 'B', 'C', 'grounded', 'none'] as const
const POTENTIAL_WORDS = {
  A: 'A phase',
  B: 'B phase',
  C: 'C phase',
  none: 'conducts nothing',
} as const

const EMPTY = { fromX: '0', fromY: '0', fromZ: '', toX: '', toY: '', toZ: '' }

/** A part that no template gives, by its two ends measured from the pole's centre and top. */
export function AddedPartForm({ units, taken, onAdd }: Props) {
  const [label, setLabel] = useState('')
  const [kind, setKind] = useState<AddedPart['kind']>('jumper')
  const [potential, setPotential] = useState<AddedPart['potential']>('A')
  const [canPerch, setCanPerch] = useState(false)
  const [places, setPlaces] = useState<Record<PlaceKey, string>>(EMPTY)
  const [fault, setFault] = useState<string | null>(null)
  const add = () => {
    const part = partOf({ label, kind, potential, canPerch }, places, units, taken)
    setFault(part ? null : 'Give it a name, and for its “from” end figures within 15 m (590 in).')
    if (!part) return
    onAdd(part)
    setLabel('')
    setPlaces(EMPTY)
  }
  return (
    <fieldset className="stack part-boxes">
      <legend className="field-label">Add a part</legend>
      <TextField label="Name" hint="As “bypass jumper, A phase”." value={label} onType={setLabel} />
      <div className="item-form-pair">
        <ChoiceField label="Part" options={PART_KINDS} value={kind} onChoose={setKind} />
        <ChoiceField
          label="Connected to"
          options={POTENTIALS}
          value={potential}
          words={POTENTIAL_WORDS}
          onChoose={setPotential}
        />
        {PLACES.map(([key, words]) => (
          <TextField
            key={key}
            label={words}
            unit={units === 'us' ? 'in' : 'cm'}
            type="decimal"
            value={places[key]}
            onType={(text) => setPlaces({ ...places, [key]: text })}
          />
        ))}
      </div>
      <label className="part-box">
        <input
          type="checkbox"
          checked={canPerch}
          onChange={(event) => setCanPerch(event.target.checked)}
        />
        A hawk could stand on it
      </label>
      {fault && (
        <p className="field-fault" role="alert">
          {fault}
        </p>
      )}
      <div>
        <Button onClick={add}>Add this part</Button>
      </div>
    </fieldset>
  )
}

type Named = Pick<AddedPart, 'label' | 'kind' | 'potential' | 'canPerch'>

/** Ends that are left empty are those of the other end: a part so small that a point stands for it. */
function partOf(
  named: Named,
  places: Record<PlaceKey, string>,
  units: Units,
  taken: readonly string[],
): AddedPart | null {
  const lengthM = (key: PlaceKey) => lengthOfTyped(places[key], units)
  const fromM = [lengthM('fromX'), lengthM('fromY'), lengthM('fromZ')]
  const toM = [lengthM('toX'), lengthM('toY'), lengthM('toZ')].map((value, axis) =>
    value === undefined ? fromM[axis] : value,
  )
  return AddedPart.safeParse({ ...named, id: freeId(taken), fromM, toM }).data ?? null
}

function freeId(taken: readonly string[]): string {
  let number = 1
  while (taken.includes(`added-${number}`)) number += 1
  return `added-${number}`
}
