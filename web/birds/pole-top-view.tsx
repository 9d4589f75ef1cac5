import { useId } from 'react'
import type { Part, PartKind } from '#domain/avian/pole-top/part.ts'
import type { Units } from '../state/address.ts'
import { BirdFigure, type DrawnBird } from './bird-figure.tsx'
import { footOf } from './foot-of.ts'
import { gapInUnits } from './gap-words.ts'
import { type NumberedPair, type PairMark, pairMarks } from './pair-labels.ts'
import { shapeOf } from './part-shape.ts'
import { type LitPart, PartSymbol } from './part-symbol.tsx'
import { phaseLetters } from './phase-letters.ts'
import { scaleBar } from './scale-bar.ts'
import { acrossM, type Frame, spotOf } from './view-frame.ts'

interface Props {
  readonly frame: Frame
  readonly parts: readonly Part[]
  /** Pairs whose dimension lines are drawn in this view. */
  readonly pairs: readonly NumberedPair[]
  readonly lit: (partId: string) => LitPart
  readonly litPair: number | null
  readonly bird: DrawnBird | null
  readonly units: Units
}

const TITLES = {
  front: 'Front, seen along the line',
  side: 'Side, seen across the line',
} as const

/** Drawn one over the other, what lies behind first. */
const LAYERS: readonly PartKind[] = [
  'guy',
  'pole',
  'ground wire',
  'arm',
  'platform',
  'brace',
  'tank',
]

/** One view of the pole top, to scale. What it shows is also told by the lists beside it. */
export function PoleTopView({ frame, parts, pairs, lit, litPair, bird, units }: Props) {
  const id = useId().replaceAll(/\W/g, '')
  const marks = pairMarks(pairs, frame)
  const title = TITLES[frame.view]
  return (
    <svg
      className="pole-top-view"
      role="img"
      aria-label={`${title}: pole top to scale with ${parts.length} parts`}
      viewBox={`0 0 ${frame.widthPx} ${frame.heightPx}`}
      width={frame.widthPx}
      height={frame.heightPx}
    >
      <title>{title}</title>
      <Hatching id={id} />
      <text className="view-title" x="4" y="14">
        {title}
      </text>
      <g>
        {behindFirst(parts, frame).map((part) => (
          <DrawnPart
            key={part.id}
            part={part}
            parts={parts}
            frame={frame}
            hatch={`url(#${id})`}
            lit={lit(part.id)}
          />
        ))}
      </g>
      {phaseLetters(parts, frame).map(({ partId, letter, at }) => (
        <text key={partId} className="phase-letter" x={at.x} y={at.y}>
          {letter}
        </text>
      ))}
      {bird && <BirdFigure bird={bird} frame={frame} />}
      {marks.map((mark) => (
        <DimensionLine
          key={mark.number}
          mark={mark}
          isLit={mark.number === litPair}
          text={gapInUnits(mark.pair.distanceM, units)}
        />
      ))}
      <Scale frame={frame} units={units} />
    </svg>
  )
}

function behindFirst(parts: readonly Part[], { view }: Frame): Part[] {
  const layer = ({ kind }: Part) => {
    const at = LAYERS.indexOf(kind)
    return at < 0 ? LAYERS.length : at
  }
  const other = view === 'front' ? 'side' : 'front'
  return parts.toSorted(
    (a, b) => layer(a) - layer(b) || acrossM(other, b.from) - acrossM(other, a.from),
  )
}

interface DrawnPartProps {
  readonly part: Part
  readonly parts: readonly Part[]
  readonly frame: Frame
  readonly hatch: string
  readonly lit: LitPart
}

function DrawnPart({ part, parts, frame, hatch, lit }: DrawnPartProps) {
  const shape = shapeOf(part, frame)
  const foot = footOf(part, parts)
  return (
    <g>
      <title>{part.label}</title>
      <PartSymbol shape={shape} foot={foot && spotOf(frame, foot)} hatch={hatch} lit={lit} />
    </g>
  )
}

function Hatching({ id }: { readonly id: string }) {
  return (
    <defs>
      <pattern
        id={id}
        width="5"
        height="5"
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <rect className="hatch-ground" width="5" height="5" />
        <path className="hatch-line" d="M0 0V5" />
      </pattern>
    </defs>
  )
}

interface LineProps {
  readonly mark: PairMark
  readonly isLit: boolean
  readonly text: string
}

/** Room for number and distance in the margin, pixels. */
const LABEL_PX = 58

function DimensionLine({ mark: { number, ends, middle, label, side }, isLit, text }: LineProps) {
  const [a, b] = ends
  const inner = side === 'left' ? label.x + LABEL_PX : label.x - LABEL_PX
  const badge = side === 'left' ? label.x + 10 : label.x - LABEL_PX + 10
  return (
    <g className={isLit ? 'pair-mark pair-mark-lit' : 'pair-mark'}>
      <path className="pair-leader" d={`M${inner} ${label.y}L${middle.x} ${middle.y}`} />
      <path className="pair-gap" d={`M${a.x} ${a.y}L${b.x} ${b.y}`} />
      <circle className="pair-end" cx={a.x} cy={a.y} r="2.5" />
      <circle className="pair-end" cx={b.x} cy={b.y} r="2.5" />
      <rect
        className="pair-ground"
        x={badge - 10}
        y={label.y - 10}
        width={LABEL_PX}
        height="20"
        rx="10"
      />
      <circle className="pair-badge" cx={badge} cy={label.y} r="9" />
      <text className="pair-number" x={badge} y={label.y}>
        {number}
      </text>
      <text className="pair-distance" x={badge + 12} y={label.y}>
        {text}
      </text>
    </g>
  )
}

function Scale({ frame, units }: { readonly frame: Frame; readonly units: Units }) {
  const { lengthM, words } = scaleBar(frame.pxPerM, frame.widthPx / 3, units)
  const y = frame.heightPx - 8
  const lengthPx = lengthM * frame.pxPerM
  return (
    <g>
      <path className="scale-bar" d={`M6 ${y - 5}V${y}H${6 + lengthPx}V${y - 5}`} />
      <text className="scale-words" x={12 + lengthPx} y={y}>
        {words}
      </text>
    </g>
  )
}
