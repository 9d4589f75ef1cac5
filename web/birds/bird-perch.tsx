import type { Part } from '#domain/avian/pole-top/part.ts'
import type { BirdSize, BirdSpecies } from '#domain/avian/species/bird-species.ts'
import { counted } from '../state/format.ts'
import { useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { numbered } from './drawn-pairs.ts'
import { gapInUnits } from './gap-words.ts'
import { HowSure } from './how-sure.tsx'
import { PairParts } from './pair-parts.tsx'
import type { Bird } from './use-bird.ts'

interface Props {
  readonly species: BirdSpecies
  readonly all: readonly BirdSpecies[]
  readonly size: BirdSize
  readonly bird: Bird
  readonly perch: Part | null
  readonly isShown: boolean
  readonly onSpecies: (id: string) => void
  readonly onShow: (isShown: boolean) => void
}

/** Which bird stands where, and what it bridges from there. */
export function BirdPerch(props: Props) {
  const { species, all, size, bird, isShown, onSpecies, onShow } = props
  const { units } = useSelection()
  if (!bird.hasPerches) {
    return <p className="soft">Nothing on this pole is drawn that a bird could stand on.</p>
  }
  return (
    <section className="stack bird-perch" aria-label="Bird on a perch">
      <div className="bird-choices">
        <Field label="Bird">
          {(control) => (
            <select
              className="input"
              value={species.id}
              onChange={(event) => onSpecies(event.target.value)}
              {...control}
            >
              {all.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Button disabled={!isShown} onClick={bird.toNextPerch}>
          Next perch
        </Button>
        <Button onClick={() => onShow(!isShown)}>
          {isShown ? 'Take the bird away' : 'Put the bird on'}
        </Button>
      </div>
      <p className="small soft">
        {gapInUnits(size.breadthM, units)} across, {gapInUnits(size.heightM, units)} high.{' '}
        <HowSure {...species.breadth} />
      </p>
      {isShown && <FromHere {...props} />}
    </section>
  )
}

const MOST_TOLD = 3

function FromHere({ bird: { bridged }, perch }: Props) {
  const { units } = useSelection()
  const kinds = numbered(bridged)
  return (
    <div role="status" className="bird-bridges">
      <p>
        <strong>
          {perch ? `On the ${perch.label}` : 'Held in the air, on no perch'}:{' '}
          {bridged.length === 0
            ? 'bridges nothing from here.'
            : `bridges ${counted(bridged.length, 'pair')} from here.`}
        </strong>
      </p>
      {bridged.length > 0 && (
        <ul className="bird-lines">
          {kinds.slice(0, MOST_TOLD).map(({ pair }) => (
            <li key={`${pair.partA.id}~${pair.partB.id}`}>
              <PairParts pair={pair} />, {gapInUnits(pair.distanceM, units)}
            </li>
          ))}
          {kinds.length > MOST_TOLD && <li>and {kinds.length - MOST_TOLD} more kinds of pair</li>}
        </ul>
      )}
    </div>
  )
}
