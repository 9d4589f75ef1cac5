import { scale } from '@observablehq/plot'
import type { Programme } from '#domain/avian/programme/programme.ts'
import { usd } from '../../state/format.ts'
import { percent, pointWithin, shareOf } from './curve-point.ts'

const WIDTH = 360
const HEIGHT = 150
const MARGIN = { top: 8, right: 12, bottom: 34, left: 44 }
const SHARES = [0, 0.25, 0.5, 0.75, 1]

interface Props {
  readonly programme: Pick<Programme, 'curve' | 'reductionPossible'>
  readonly budgetUsd: number
}

/** What each budget takes away, as a share of all; the chosen budget is marked. */
export function BudgetCurve({ programme: { curve, reductionPossible }, budgetUsd }: Props) {
  const mostUsd = Math.max(1, budgetUsd, curve.at(-1)?.budgetUsd ?? 0)
  const x = scale({ x: { domain: [0, mostUsd], range: [MARGIN.left, WIDTH - MARGIN.right] } }).apply
  const y = scale({ y: { domain: [0, 1], range: [HEIGHT - MARGIN.bottom, MARGIN.top] } }).apply
  const shareAt = (reduction: number) => y(shareOf(reduction, reductionPossible))
  const line = curve.map((point) => `${x(point.budgetUsd)},${shareAt(point.reduction)}`).join(' ')
  const here = pointWithin(curve, budgetUsd)
  const share = shareOf(here?.reduction ?? 0, reductionPossible)
  return (
    <svg
      className="budget-curve"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={`Reduction against budget: ${usd(budgetUsd)} takes away ${percent(share)}; ${usd(mostUsd)} takes away ${percent(shareOf(curve.at(-1)?.reduction ?? 0, reductionPossible))}.`}
    >
      {SHARES.map((at) => (
        <g key={at}>
          <line
            className="curve-rule"
            x1={MARGIN.left}
            x2={WIDTH - MARGIN.right}
            y1={y(at)}
            y2={y(at)}
          />
          <text x={MARGIN.left - 6} y={y(at)} dy="0.32em" textAnchor="end">
            {percent(at)}
          </text>
        </g>
      ))}
      {[0, mostUsd / 2, mostUsd].map((at, index) => (
        <text
          key={at}
          x={x(at)}
          y={HEIGHT - MARGIN.bottom + 16}
          textAnchor={index === 0 ? 'start' : index === 1 ? 'middle' : 'end'}
        >
          {usd(at)}
        </text>
      ))}
      <text x={(MARGIN.left + WIDTH - MARGIN.right) / 2} y={HEIGHT - 3} textAnchor="middle">
        budget
      </text>
      <polyline className="curve-line" points={line} />
      <line
        className="curve-here"
        x1={x(budgetUsd)}
        x2={x(budgetUsd)}
        y1={MARGIN.top}
        y2={HEIGHT - MARGIN.bottom}
      />
      {here && (
        <circle className="curve-point" cx={x(budgetUsd)} cy={shareAt(here.reduction)} r="5" />
      )}
    </svg>
  )
}
