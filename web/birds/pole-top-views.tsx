import type { Part } from '#domain/avian/pole-top/part.ts'
import type { BirdSize } from '#domain/avian/species/bird-species.ts'
import type { Units } from '../state/address.ts'
import { useRoom } from '../ui/use-room.ts'
import { BirdHandle } from './bird-handle.tsx'
import { type NumberedPair, viewOfPair } from './pair-labels.ts'
import { PartHandles, type PartPicking } from './part-handles.tsx'
import type { LitPart } from './part-symbol.tsx'
import { PoleTopView } from './pole-top-view.tsx'
import type { Bird } from './use-bird.ts'
import { framesOf } from './view-frame.ts'

interface Props {
  readonly parts: readonly Part[]
  readonly drawn: readonly NumberedPair[]
  readonly lit: (partId: string) => LitPart
  readonly litPair: number | null
  /** Null where none is shown. */
  readonly bird: Bird | null
  readonly size: BirdSize
  /** "red-tailed hawk on the arm". */
  readonly birdName: string
  readonly units: Units
  /** Left out where no part is to be chosen. */
  readonly picking?: PartPicking
}

const MARGIN_PX = 60
const TWO_VIEWS_PX = 900
const MOST_PX = 720
const GAP_PX = 16
/** Before the page knows its width. */
const USUAL_PX = 380

/** Both views, as large as there is room, one below the other where it is narrow. */
export function PoleTopViews(props: Props) {
  const { parts, drawn, lit, litPair, bird, size, birdName, units, picking } = props
  const [room, { widthPx }] = useRoom<HTMLDivElement>()
  return (
    <div className="pole-top-views" ref={room}>
      {framesOf(parts, roomForView(widthPx), MARGIN_PX).map((frame) => (
        <div key={frame.view} className="pole-top-box" style={{ width: frame.widthPx }}>
          <PoleTopView
            frame={frame}
            parts={parts}
            pairs={drawn.filter(({ pair }) => viewOfPair(pair) === frame.view)}
            lit={lit}
            litPair={litPair}
            bird={bird && { feetAt: bird.place.feetAt, size }}
            units={units}
          />
          {picking && <PartHandles frame={frame} parts={parts} {...picking} />}
          {bird && (
            <BirdHandle
              frame={frame}
              parts={parts}
              size={size}
              place={bird.place}
              name={birdName}
              onPut={bird.put}
            />
          )}
        </div>
      ))}
    </div>
  )
}

function roomForView(widthPx: number): number {
  if (widthPx === 0) return USUAL_PX
  return Math.min(MOST_PX, widthPx < TWO_VIEWS_PX ? widthPx : (widthPx - GAP_PX) / 2)
}
