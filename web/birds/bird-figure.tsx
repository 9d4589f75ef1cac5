import type { Point } from '#domain/avian/pole-top/part.ts'
import type { BirdSize } from '#domain/avian/species/bird-species.ts'
import {
  BIRD_BEAK,
  BIRD_BODY,
  BIRD_FEATHERS,
  BIRD_TAIL,
  BIRD_WING,
  outlineScale,
} from './bird-outline.ts'
import { px } from './part-shape.ts'
import { type Frame, spotOf } from './view-frame.ts'

export interface DrawnBird {
  readonly feetAt: Point
  readonly size: BirdSize
}

interface Props {
  readonly bird: DrawnBird
  readonly frame: Frame
}

/**
 * A bird to scale: wrist to wrist its breadth, feet to head its height. It can turn, so that both
 * views show it with its wings spread. The dashed line is as far as its wrists reach.
 */
export function BirdFigure({ bird: { feetAt, size }, frame }: Props) {
  const { x, y } = spotOf(frame, feetAt)
  const { across, up } = outlineScale(size, frame.pxPerM)
  return (
    <g className="bird-figure">
      <path className="bird-reach" d={reachPath(x, y, size, frame.pxPerM)} />
      <g transform={`translate(${px(x)} ${px(y)}) scale(${across} ${up})`}>
        <path className="bird-tail" d={BIRD_TAIL} />
        {[1, -1].map((side) => (
          <g key={side} transform={`scale(${side} 1)`}>
            <path className="bird-feathers" d={BIRD_FEATHERS} />
            <path className="bird-flesh" d={BIRD_WING} />
          </g>
        ))}
        <path className="bird-flesh" d={BIRD_BODY} />
        <path className="bird-beak" d={BIRD_BEAK} />
      </g>
    </g>
  )
}

/** All that lies within half the breadth of the body, from the feet to the head. */
function reachPath(x: number, y: number, { breadthM, heightM }: BirdSize, pxPerM: number): string {
  const half = (breadthM / 2) * pxPerM
  const top = y - heightM * pxPerM
  const arc = `A${px(half)} ${px(half)} 0 0 1`
  return `M${px(x - half)} ${px(y)}V${px(top)}${arc} ${px(x + half)} ${px(top)}V${px(y)}${arc} ${px(x - half)} ${px(y)}Z`
}
