import { useState } from 'react'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { ContactPair } from '#domain/avian/pole-top/contact-pair.ts'
import type { Part } from '#domain/avian/pole-top/part.ts'
import { birdSpecies, designSpecies, sizeOf } from '#domain/avian/species/shipped-species.ts'
import { useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { Dialog } from '../ui/dialog.tsx'
import { BirdPerch } from './bird-perch.tsx'
import './birds.css'
import { DrawingKey } from './drawing-key.tsx'
import { drawnPairs, numbered } from './drawn-pairs.ts'
import type { NumberedPair } from './pair-labels.ts'
import { PairList } from './pair-list.tsx'
import { PartList } from './part-list.tsx'
import type { LitPart } from './part-symbol.tsx'
import { PoleTopViews } from './pole-top-views.tsx'
import { useBird } from './use-bird.ts'

interface Props {
  readonly parts: readonly Part[]
  /** What the design species can bridge, tightest first. */
  readonly pairs: readonly ContactPair[]
  readonly settings?: BirdSettings
}

/** What a person points at in one of the lists. */
interface Lit {
  readonly pair: number | null
  readonly partIds: readonly string[]
}

const UNLIT: Lit = { pair: null, partIds: [] }

/**
 * The top of a pole to scale, from the front and from the side, with the tightest pairs, a bird to
 * put on it, and lists that say the same in words.
 */
export function PoleTopDrawing({ parts, pairs, settings }: Props) {
  const { units } = useSelection()
  const [isLarge, setIsLarge] = useState(false)
  const [speciesId, setSpeciesId] = useState(designSpecies(settings).id)
  const [hasBird, setHasBird] = useState(true)
  const [lit, setLit] = useState(UNLIT)
  const all = birdSpecies(settings)
  const species = all.find(({ id }) => id === speciesId) ?? designSpecies(settings)
  const size = sizeOf(species, settings)
  const bird = useBird(parts, size, pairs[0]?.perchId)
  const isShown = hasBird && bird.hasPerches
  const list = numbered(pairs)
  const drawn = drawnPairs(list, lit.pair)
  const perch = parts.find(({ id }) => id === bird.place.partId) ?? null
  const touched = new Set(isShown ? bird.bridged.flatMap(partIdsOf) : [])
  const litOf = (partId: string): LitPart =>
    lit.partIds.includes(partId) ? 'pointed at' : touched.has(partId) ? 'touched' : 'plain'
  const drawing = (
    <div className={isLarge ? 'stack pole-top-large' : 'stack'}>
      <PoleTopViews
        parts={parts}
        drawn={drawn}
        lit={litOf}
        litPair={lit.pair}
        bird={isShown ? bird : null}
        size={size}
        birdName={`${species.name} ${perch ? `on the ${perch.label}` : 'in the air'}`}
        units={units}
      />
      {!isLarge && (
        <div>
          <Button onClick={() => setIsLarge(true)}>Show it larger</Button>
        </div>
      )}
      <DrawingKey />
      <BirdPerch
        species={species}
        all={all}
        size={size}
        bird={bird}
        perch={perch}
        isShown={isShown}
        onSpecies={setSpeciesId}
        onShow={setHasBird}
      />
      <PairList
        pairs={list}
        drawn={new Set(drawn.map(({ number }) => number))}
        species={designSpecies(settings)}
        onLit={(pair) => setLit(pair ? litByPair(pair) : UNLIT)}
      />
      <PartList
        parts={parts}
        onLit={(partId) => setLit(partId === null ? UNLIT : { pair: null, partIds: [partId] })}
        onPutBird={(partId) => {
          setHasBird(true)
          bird.putOn(partId)
        }}
      />
    </div>
  )
  if (!isLarge) return drawing
  return (
    <Dialog title="Pole top to scale" isWide onClose={() => setIsLarge(false)}>
      {drawing}
    </Dialog>
  )
}

const partIdsOf = ({ partA, partB }: ContactPair): string[] => [partA.id, partB.id]

function litByPair({ number, pair }: NumberedPair): Lit {
  return { pair: number, partIds: partIdsOf(pair) }
}
