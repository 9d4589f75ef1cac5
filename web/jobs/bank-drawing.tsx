import { useMemo } from 'react'
import type { Regulator } from '#domain/feeder/equipment.ts'
import {
  bankOneLine,
  type OneLineBranch,
  type OneLineNode,
} from '#domain/jobs/bank-one-line.ts'
import './bank-drawing.css'
import { OneLineSymbol } from './one-line-symbol.tsx'

const COLUMN_PX = 100
const ROW_PX = 42
const MARGIN_PX = { x: 58, y: 26 }

/** A branch with the two places that it joins. */
export interface PlacedBranch {
  readonly branch: OneLineBranch
  readonly from: Spot
  readonly to: Spot
}

export interface Spot {
  readonly x: number
  readonly y: number
}

interface Props {
  readonly regulator: Pick<Regulator, 'phases'>
}

/**
 * The one-line drawing of a bank: each unit with its bypass, disconnect switches and arresters, as
 * it stands in service. Symbols after IEC 60617 and IEEE 315, from memory.
 */
export function BankDrawing({ regulator }: Props) {
  const { nodes, branches, columns, rows } = useMemo(() => bankOneLine(regulator), [regulator])
  const placed = placedBranches(nodes, branches)
  const widthPx = (columns - 1) * COLUMN_PX + 2 * MARGIN_PX.x
  const heightPx = (rows - 1) * ROW_PX + 2 * MARGIN_PX.y
  return (
    <figure className="bank-drawing">
      <svg
        viewBox={`0 0 ${widthPx} ${heightPx}`}
        role="img"
        aria-label={`One-line drawing of the bank on phases ${[...regulator.phases].join(', ')}`}
      >
        {placed.map((one) => (
          <OneLineSymbol key={one.branch.id} placed={one} foot={footOf(one, nodes)} />
        ))}
        {nodes.map((node) => (
          <NodeMark key={node.id} node={node} joins={joinsAt(node, branches)} />
        ))}
      </svg>
      <figcaption>
        Drawn as in service: disconnect switches closed, bypass open. It shows the usual
        arrangement, not what hangs there: read the switches at the pole.
      </figcaption>
    </figure>
  )
}

function spotOf({ column, row }: Pick<OneLineNode, 'column' | 'row'>): Spot {
  return { x: MARGIN_PX.x + column * COLUMN_PX, y: MARGIN_PX.y + row * ROW_PX }
}

function placedBranches(
  nodes: readonly OneLineNode[],
  branches: readonly OneLineBranch[],
): PlacedBranch[] {
  const spots = new Map(nodes.map((node) => [node.id, spotOf(node)]))
  return branches.flatMap((branch) => {
    const from = spots.get(branch.from)
    const to = spots.get(branch.to)
    return from && to ? [{ branch, from, to }] : []
  })
}

/** Where the neutral side of a unit comes out: its SL terminal. */
function footOf({ branch }: PlacedBranch, nodes: readonly OneLineNode[]): Spot | null {
  if (branch.kind !== 'regulator unit') return null
  const terminal = nodes.find(({ phase, label }) => phase === branch.phase && label === 'SL')
  return terminal ? spotOf(terminal) : null
}

function joinsAt({ id }: OneLineNode, branches: readonly OneLineBranch[]): number {
  return branches.filter(({ from, to }) => from === id || to === id).length
}

function NodeMark({ node, joins }: { readonly node: OneLineNode; readonly joins: number }) {
  const { x, y } = spotOf(node)
  switch (node.kind) {
    case 'line':
      return <LineEnd x={x} y={y} label={node.label} isSource={node.column === 0} />
    case 'terminal':
      return (
        <g>
          <circle className="bank-terminal" cx={x} cy={y} r="4" />
          <text className="bank-terminal-name" x={x + 7} y={y - 6}>
            {node.label}
          </text>
        </g>
      )
    case 'neutral':
      return (
        <g>
          <path className="bank-neutral" d={`M${x - 16} ${y}H${x + 16}`} />
          <text className="bank-label" x={x + 20} y={y + 4}>
            {node.label}
          </text>
        </g>
      )
    case 'ground':
      return <path className="bank-lead" d={groundPath(x, y)} />
    case 'joint':
      return joins > 2 ? <circle className="bank-joint" cx={x} cy={y} r="3" /> : null
  }
}

interface LineEndProps extends Spot {
  readonly label: string
  readonly isSource: boolean
}

function LineEnd({ x, y, label, isSource }: LineEndProps) {
  return (
    <g>
      <path className="bank-arrow" d={`M${x + 6} ${y}l-9 -4v8z`} />
      <text
        className="bank-label bank-line-name"
        x={x}
        y={y - 8}
        textAnchor={isSource ? 'start' : 'end'}
      >
        {label}
      </text>
    </g>
  )
}

/** Earth: IEC 60617-2, symbol 02-15-01. */
function groundPath(x: number, y: number): string {
  return `M${x - 10} ${y}h20M${x - 6} ${y + 4}h12M${x - 2} ${y + 8}h4`
}
