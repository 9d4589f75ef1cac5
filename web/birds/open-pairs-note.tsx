import { useMemo } from 'react'
import { cheapestSet } from '#domain/avian/measures/cheapest-measures.ts'
import {
  COVERS_ARE_NO_INSULATION,
  measureCatalogue,
} from '#domain/avian/measures/measure-catalogue.ts'
import { designSpecies } from '#domain/avian/species/shipped-species.ts'
import { counted, usd } from '../state/format.ts'
import { useSelection } from '../state/selection.ts'
import './birds.css'
import { numbered } from './drawn-pairs.ts'
import { gapInUnits } from './gap-words.ts'
import { HowSure } from './how-sure.tsx'
import { measureInWords } from './measure-words.ts'
import { PairParts } from './pair-parts.tsx'
import type { PoleBirds } from './use-pole-birds.ts'

/** Enough to see what kind of pole it is; the drawing has the rest. */
const MOST_PAIRS = 3

/** Pairs that stand open on a pole and what closes them most cheaply, in a few lines. */
export function OpenPairsNote({ birds }: { readonly birds: PoleBirds }) {
  const { units } = useSelection()
  const { site, items, settings, assessment } = birds
  const { name } = designSpecies(settings)
  const cheapest = useMemo(() => cheapestSet(site, items, settings), [site, items, settings])
  const { pairs, poleTop } = assessment
  if (!poleTop) return <p className="soft">Nothing is recorded to judge its pole top by.</p>
  if (pairs.length === 0) return <p>No pair is left that the {name} could bridge.</p>
  const kinds = numbered(pairs)
  const facts = measureCatalogue(settings).filter(({ kind }) =>
    cheapest?.uses.some((use) => use.kind === kind),
  )
  return (
    <div className="stack">
      <p>
        {counted(pairs.length, 'pair')} the {name} can bridge, the tightest first:
      </p>
      <ul className="bird-lines">
        {kinds.slice(0, MOST_PAIRS).map(({ pair }) => (
          <li key={`${pair.partA.id}~${pair.partB.id}`}>
            <PairParts pair={pair} />, {gapInUnits(pair.distanceM, units)}
          </li>
        ))}
        {kinds.length > MOST_PAIRS && <li>and {kinds.length - MOST_PAIRS} more kinds of pair</li>}
      </ul>
      {cheapest && (
        <>
          <p>
            Cheapest way to close {cheapest.leftOpen.length === 0 ? 'all of them' : 'most of them'}:{' '}
            <strong>{usd(cheapest.costUsd)}</strong>{' '}
            <HowSure sureness="assumption" source={facts.map(({ source }) => source).join(' ')} />
          </p>
          <ul className="bird-lines">
            {cheapest.uses.map((use) => (
              <li key={`${use.kind} ${use.partIds.join()}`}>
                {measureInWords(use, poleTop.parts, units)}
              </li>
            ))}
          </ul>
          {cheapest.leftOpen.length > 0 && (
            <p>{counted(cheapest.leftOpen.length, 'pair')} would stay open all the same.</p>
          )}
          <p className="small soft">{COVERS_ARE_NO_INSULATION}</p>
        </>
      )}
    </div>
  )
}
