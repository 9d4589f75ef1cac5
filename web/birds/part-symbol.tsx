import type { PartKind, Potential } from '#domain/avian/pole-top/part.ts'
import { outlineOf, type PartShape, px } from './part-shape.ts'
import type { Spot } from './view-frame.ts'

interface Props {
  readonly shape: PartShape
  /** Where porcelain holds a terminal up, if it stands on something. */
  readonly foot: Spot | null
  /** Fill of what is grounded: a reference to the hatching. */
  readonly hatch: string
  readonly lit: LitPart
}

/** Nothing, touched by the bird, or pointed at. */
export type LitPart = 'plain' | 'touched' | 'pointed at'

const PORCELAIN: readonly PartKind[] = ['bushing', 'arrester', 'terminator']
const WIRES: readonly PartKind[] = ['conductor', 'neutral', 'jumper', 'guy', 'ground wire']

/** One part in the drawing's own symbols: solid is energized, hatched grounded, hollow neither. */
export function PartSymbol({ shape, foot, hatch, lit }: Props) {
  const { kind, potential, surface } = shape.part
  const fill = fillOf(potential, hatch)
  return (
    <>
      {foot && PORCELAIN.includes(kind) && <Sheds from={shape.from} to={foot} widthPx={9} />}
      {lit === 'touched' && <Around shape={shape} look="part-touched" morePx={3} />}
      {lit === 'pointed at' && <Around shape={shape} look="part-lit" morePx={6} />}
      {surface === 'covered' && <Around shape={shape} look="part-sleeve" morePx={3.5} />}
      <Body shape={shape} fill={fill} />
    </>
  )
}

interface AroundProps {
  readonly shape: PartShape
  readonly look: 'part-lit' | 'part-touched' | 'part-sleeve'
  readonly morePx: number
}

/** An outline around the part: along a wire two strokes, one over the other. */
function Around({ shape, look, morePx }: AroundProps) {
  if (!WIRES.includes(shape.part.kind) || shape.isEndOn) {
    return <path className={look} d={outlineOf(shape, morePx)} />
  }
  const path = wirePath(shape)
  const widthPx = 2 * (shape.halfPx + morePx)
  return (
    <>
      <path className={`${look}-rim`} strokeWidth={widthPx} d={path} />
      <path className={`${look}-core`} strokeWidth={widthPx - 3} d={path} />
    </>
  )
}

function fillOf(potential: Potential, hatch: string): string {
  if (potential === 'grounded') return hatch
  return potential === 'none' ? 'var(--paper-raised)' : 'var(--ink)'
}

interface BodyProps {
  readonly shape: PartShape
  readonly fill: string
}

function Body({ shape, fill }: BodyProps) {
  switch (shape.part.kind) {
    case 'arm':
    case 'platform':
    case 'perch':
      return <Plank shape={shape} fill={fill} />
    case 'tank':
      return <Tank shape={shape} fill={fill} />
    case 'insulator':
      return <Sheds from={shape.from} to={shape.to} widthPx={10} />
    case 'conductor':
    case 'neutral':
      return shape.isEndOn ? <WireEnd shape={shape} fill={fill} /> : <Wire shape={shape} />
    case 'jumper':
    case 'guy':
    case 'ground wire':
      return <Wire shape={shape} />
    case 'pole':
    case 'brace':
    case 'bracket':
    case 'switch blade':
      return <path className="part-line" d={outlineOf(shape)} fill={fill} />
    case 'bushing':
    case 'cutout':
    case 'arrester':
    case 'dead-end clamp':
    case 'terminator':
      return <Terminal shape={shape} fill={fill} />
  }
}

/** A flat piece is as wide as its part says and lies with its upper side at the part's height. */
function Plank({ shape: { from, to, halfPx, isEndOn, part }, fill }: BodyProps) {
  const left = Math.min(from.x, to.x) - (isEndOn ? halfPx : 0)
  const right = Math.max(from.x, to.x) + (isEndOn ? halfPx : 0)
  const thickPx = part.kind === 'platform' ? 7 : Math.max(4, 2 * halfPx)
  return (
    <rect
      className="part-line"
      x={left}
      y={Math.min(from.y, to.y)}
      width={right - left}
      height={thickPx + Math.abs(to.y - from.y)}
      fill={fill}
    />
  )
}

function Tank({ shape: { from, to, halfPx }, fill }: BodyProps) {
  const [top, bottom] = [Math.min(from.y, to.y), Math.max(from.y, to.y)]
  const left = from.x - halfPx
  return (
    <>
      <rect
        className="part-line"
        x={left}
        y={top}
        width={2 * halfPx}
        height={Math.max(bottom - top, 4)}
        rx={Math.min(6, halfPx / 2)}
        fill={fill}
      />
      <path
        className="part-line"
        d={`M${px(left - 2)} ${px(top + 5)}H${px(left + 2 * halfPx + 2)}`}
      />
    </>
  )
}

/** Seen from its end, with a stub of the wire that runs away from the eye. */
function WireEnd({ shape: { from, halfPx, part }, fill }: BodyProps) {
  const radius = Math.max(part.kind === 'neutral' ? 3.5 : 4, halfPx)
  return (
    <>
      <path className="part-wire" d={`M${px(from.x)} ${px(from.y)}l7 -5`} />
      <circle className="part-line" cx={from.x} cy={from.y} r={radius} fill={fill} />
    </>
  )
}

function Wire({ shape }: { readonly shape: PartShape }) {
  const grounded = shape.part.potential === 'grounded' ? ' part-wire-grounded' : ''
  return (
    <path
      className={`part-wire${grounded}`}
      strokeWidth={Math.max(1.8, 2 * shape.halfPx)}
      d={wirePath(shape)}
    />
  )
}

/** A jumper sags a little; the others are straight. */
function wirePath({ from, to, part }: PartShape): string {
  const sagPx = part.kind === 'jumper' ? Math.min(10, Math.abs(to.x - from.x) / 4) : 0
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 + 2 * sagPx }
  return `M${px(from.x)} ${px(from.y)}Q${px(middle.x)} ${px(middle.y)} ${px(to.x)} ${px(to.y)}`
}

/** A bare metal end: what a bird can touch. */
function Terminal({ shape, fill }: BodyProps) {
  const { from, halfPx, isEndOn } = shape
  if (!isEndOn) return <path className="part-line" d={outlineOf(shape, 1)} fill={fill} />
  return (
    <circle className="part-line" cx={from.x} cy={from.y} r={Math.max(3, halfPx)} fill={fill} />
  )
}

interface ShedsProps {
  readonly from: Spot
  readonly to: Spot
  readonly widthPx: number
}

/** Porcelain or polymer: a stem with sheds, which conducts nothing. */
function Sheds({ from, to, widthPx }: ShedsProps) {
  const lengthPx = Math.hypot(to.x - from.x, to.y - from.y)
  if (lengthPx < 2) return null
  const along = { x: (to.x - from.x) / lengthPx, y: (to.y - from.y) / lengthPx }
  const count = Math.max(1, Math.floor(lengthPx / 6))
  const rungs = Array.from({ length: count }, (_, index) => {
    const at = (lengthPx * (index + 0.5)) / count
    const spot = { x: from.x + along.x * at, y: from.y + along.y * at }
    const half = widthPx / 2
    return `M${px(spot.x - along.y * half)} ${px(spot.y + along.x * half)}L${px(spot.x + along.y * half)} ${px(spot.y - along.x * half)}`
  })
  return (
    <path
      className="part-sheds"
      d={`M${px(from.x)} ${px(from.y)}L${px(to.x)} ${px(to.y)}${rungs.join('')}`}
    />
  )
}
