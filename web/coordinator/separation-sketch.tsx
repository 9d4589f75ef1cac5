import { EAGLE_GUIDANCE } from '#domain/avian/eagle-guidance.ts'
import type { PairSeparation, PoleSeparation } from '#domain/avian/separation.ts'
import { gapInches } from '#domain/avian/separation-words.ts'

/** Reach of the drawing, metres; a part further away is drawn at the edge. */
const WIDE_M = 2
const HIGH_M = 1.4
const PX_PER_M = 100
const MARGIN = { left: 14, right: 14, top: 18, bottom: 14 }

const BOX_WIDE = gapInches(EAGLE_GUIDANCE.horizontalM)
const BOX_HIGH = gapInches(EAGLE_GUIDANCE.verticalM)

interface DrawnPair {
  readonly pair: PairSeparation
  readonly horizontalM: number
  readonly verticalM: number
}

/**
 * Recorded separations to scale: one part stands in the corner, the other where its gaps put it.
 * Inside the dashed box neither gap reaches guidance, and an eagle bridges the two.
 */
export function SeparationSketch({ separation }: { readonly separation: PoleSeparation }) {
  const pairs = separation.pairs.flatMap(drawn)
  if (pairs.length === 0) return null
  return (
    <figure className="separation-sketch">
      {pairs.map((pair) => (
        <PairDrawing key={pair.pair.pair} {...pair} />
      ))}
      <figcaption className="soft small">
        To scale. Inside the dashed box, {BOX_WIDE} wide and {BOX_HIGH} high, an eagle can bridge
        the two parts.
      </figcaption>
    </figure>
  )
}

function drawn(pair: PairSeparation): DrawnPair[] {
  const { horizontalM, verticalM } = pair
  return horizontalM === null || verticalM === null ? [] : [{ pair, horizontalM, verticalM }]
}

const x = (lengthM: number): number => MARGIN.left + Math.min(lengthM, WIDE_M) * PX_PER_M
const y = (lengthM: number): number => MARGIN.top + (HIGH_M - Math.min(lengthM, HIGH_M)) * PX_PER_M

function PairDrawing({ pair, horizontalM, verticalM }: DrawnPair) {
  const width = MARGIN.left + WIDE_M * PX_PER_M + MARGIN.right
  const height = MARGIN.top + HIGH_M * PX_PER_M + MARGIN.bottom
  const far = { x: x(horizontalM), y: y(verticalM) }
  const gaps = `${gapInches(horizontalM)} across, ${gapInches(verticalM)} up`
  return (
    <div>
      <svg
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={`${pair.pair}: ${gaps}, drawn against guidance of ${BOX_WIDE} or ${BOX_HIGH}`}
      >
        <rect
          className={pair.verdict === 'short' ? 'sketch-box sketch-box-short' : 'sketch-box'}
          x={x(0)}
          y={y(EAGLE_GUIDANCE.verticalM)}
          width={EAGLE_GUIDANCE.horizontalM * PX_PER_M}
          height={EAGLE_GUIDANCE.verticalM * PX_PER_M}
        />
        <text className="sketch-text" x={x(EAGLE_GUIDANCE.horizontalM) + 3} y={y(0) - 4}>
          {BOX_WIDE}
        </text>
        <text className="sketch-text" x={x(0) + 2} y={y(EAGLE_GUIDANCE.verticalM) - 4}>
          {BOX_HIGH}
        </text>
        <path className="sketch-gap" d={`M${x(0)} ${y(0)}H${far.x}V${far.y}`} />
        <circle className="sketch-part" cx={x(0)} cy={y(0)} r="6" />
        <circle className="sketch-part sketch-part-phase" cx={far.x} cy={far.y} r="6" />
      </svg>
      <p className="small">
        {pair.pair}: {gaps}
      </p>
    </div>
  )
}
