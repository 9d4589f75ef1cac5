import { useState } from 'react'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { ContactPair } from '#domain/avian/pole-top/contact-pair.ts'
import type { Part } from '#domain/avian/pole-top/part.ts'
import { birdSpecies, designSpecies, sizeOf } from '#domain/avian/species/shipped-species.ts'
import { useSelection } from '../state/selection.ts'
import { useRoom } from '../ui/use-room.ts'
import { BirdHandle } from './bird-handle.tsx'
import { BirdPerch } from './bird-perch.tsx'
import './birds.css'
import { DrawingKey } from './drawing-key.tsx'
import { drawnPairs, numbered } from './drawn-pairs.ts'
import { viewOfPair } from './pair-labels.ts'
import { PairList } from './pair-list.tsx'
import { PartList } from './part-list.tsx'
import { PoleTopView } from './pole-top-view.tsx'
import { useBird } from './use-bird.ts'
import { framesOf } from './view-frame.ts'

interface Props {
  readonly parts: readonly Part[]
  /** What the design species can bridge, tightest first. */
  readonly pairs: readonly ContactPair[]
  readonly settings?: BirdSettings
}

/** What a person points at in one of the lists. */
export type Lit =
  | { readonly pair: number; readonly partIds: readonly string[] }
  | { readonly pair: null; readonly partIds: readonly string[] }

const UNLIT: Lit = { pair: null, partIds: [] }
const MARGIN_PX = 60
const TWO_VIEWS_PX = 700
/** Before the page knows its width. */
const USUAL_PX = 380

/**
 * The top of a pole to scale, from the front and from the side, with the tightest pairs, a bird to
 * put on it, and lists that say the same in words.
 */
export function PoleTopDrawing({ parts, pairs, settings }: Props) {
  const [room, { widthPx }] = useRoom<HTMLDivElement>()
  const { units } = useSelection()
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
  const viewPx = roomForView(widthPx)
  const litPartIds = new Set([
    ...lit.partIds,
    ...(isShown ? bird.bridged.flatMap(({ partA, partB }) => [partA.id, partB.id]) : []),
  ])
  const on = parts.find(({ id }) => id === bird.place.partId)
  return (
    <div className="stack" ref={room}>
      <div className="pole-top-views">
        {framesOf(parts, viewPx, MARGIN_PX).map((frame) => (
          <div key={frame.view} className="pole-top-box" style={{ width: frame.widthPx }}>
            <PoleTopView
              frame={frame}
              parts={parts}
              pairs={drawn.filter(({ pair }) => viewOfPair(pair) === frame.view)}
              litPartIds={litPartIds}
              litPair={lit.pair}
              bird={isShown ? { feetAt: bird.place.feetAt, size } : null}
              units={units}
            />
            {isShown && (
              <BirdHandle
                frame={frame}
                parts={parts}
                size={size}
                place={bird.place}
                name={`${species.name} ${on ? `on the ${on.label}` : 'in the air'}`}
                onPut={bird.put}
              />
            )}
          </div>
        ))}
      </div>
      <DrawingKey />
      <BirdPerch
        species={species}
        all={all}
        size={size}
        bird={bird}
        perch={on ?? null}
        isShown={isShown}
        onSpecies={setSpeciesId}
        onShow={setHasBird}
      />
      <PairList
        pairs={list}
        drawn={new Set(drawn.map(({ number }) => number))}
        species={designSpecies(settings)}
        onLit={(pair) => setLit(pair ? litOf(pair) : UNLIT)}
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
}

function litOf({ number, pair }: { readonly number: number; readonly pair: ContactPair }): Lit {
  return { pair: number, partIds: [pair.partA.id, pair.partB.id] }
}

function roomForView(widthPx: number): number {
  if (widthPx === 0) return USUAL_PX
  return widthPx < TWO_VIEWS_PX ? widthPx : (widthPx - 16) / 2
}
