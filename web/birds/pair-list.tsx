import type { BirdSpecies } from '#domain/avian/species/bird-species.ts'
import { counted } from '../state/format.ts'
import { useSelection } from '../state/selection.ts'
import { gapInUnits } from './gap-words.ts'
import type { NumberedPair } from './pair-labels.ts'
import { PairParts } from './pair-parts.tsx'

interface Props {
  readonly pairs: readonly NumberedPair[]
  /** Numbers of those that have a line on the drawing anyway. */
  readonly drawn: ReadonlySet<number>
  readonly species: BirdSpecies
  /** Null when the pointer or the focus went away. */
  readonly onLit: (pair: NumberedPair | null) => void
}

/** Pairs by number, as on the drawing: pointing at one shows it there. */
export function PairList({ pairs, drawn, species, onLit }: Props) {
  if (pairs.length === 0) {
    return <p>No pair is left that the {species.name} could bridge.</p>
  }
  const [first, rest] = [
    pairs.filter(({ number }) => drawn.has(number)),
    pairs.filter(({ number }) => !drawn.has(number)),
  ]
  const total = pairs.reduce((sum, { places }) => sum + places, 0)
  return (
    <section className="stack" aria-label="Pairs on the drawing">
      <h4>
        {counted(total, 'pair')} the {species.name} can bridge
      </h4>
      <Rows pairs={first} onLit={onLit} />
      {rest.length > 0 && (
        <details>
          <summary>{counted(rest.length, 'wider gap')}</summary>
          <Rows pairs={rest} onLit={onLit} />
        </details>
      )}
    </section>
  )
}

function Rows({ pairs, onLit }: Pick<Props, 'pairs' | 'onLit'>) {
  const { units } = useSelection()
  return (
    <ol className="pair-rows">
      {pairs.map((numbered) => {
        const { number, pair, places } = numbered
        return (
          <li key={`${pair.partA.id}~${pair.partB.id}`}>
            <button
              type="button"
              className="pair-row"
              onPointerEnter={() => onLit(numbered)}
              onPointerLeave={() => onLit(null)}
              onFocus={() => onLit(numbered)}
              onBlur={() => onLit(null)}
              onClick={() => onLit(numbered)}
            >
              <span className="key-badge">{number}</span>
              <span>
                <PairParts pair={pair} />
                {places > 1 && <span className="soft"> at {places} places</span>}
              </span>
              <span className="figure">{gapInUnits(pair.distanceM, units)}</span>
            </button>
          </li>
        )
      })}
    </ol>
  )
}
