import { useMemo } from 'react'
import { bankOneLine, type DrawnBank } from '#domain/jobs/bank-one-line.ts'
import './bank-drawing.css'
import { OneLineSymbol } from './one-line-symbol.tsx'
import { type PlacedNode, placedOneLine, type Spot } from './placed-one-line.ts'

interface Props {
  readonly regulator: DrawnBank
  /** "Before the work": where it is drawn as it stands at some time of a job. */
  readonly when?: string
}

/**
 * The one-line drawing of a bank: each unit with its bypass, disconnect switches and arresters, as
 * it stands in service or bypassed. Symbols after IEC 60617 and IEEE 315, from memory.
 */
export function BankDrawing({ regulator, when }: Props) {
  const { widthPx, heightPx, nodes, branches } = useMemo(
    () => placedOneLine(bankOneLine(regulator)),
    [regulator],
  )
  const phases = [...regulator.phases].join(', ')
  const stands = standInWords(regulator)
  return (
    <figure className="bank-drawing">
      {when && <p className="bank-when">{when}</p>}
      <div className="bank-sheet">
        <svg
          viewBox={`0 0 ${widthPx} ${heightPx}`}
          role="img"
          aria-label={`One-line drawing of the bank on phases ${phases}${when ? `, ${when.toLowerCase()}` : ''}: ${stands}`}
        >
          {branches.map((placed) => (
            <OneLineSymbol key={placed.branch.id} placed={placed} />
          ))}
          {nodes.map((placed) => (
            <NodeMark key={placed.node.id} placed={placed} />
          ))}
        </svg>
      </div>
      <figcaption>
        Drawn as {stands}. It shows the usual arrangement, not what hangs there: read the switches
        at the pole.
      </figcaption>
    </figure>
  )
}

function standInWords({ state, neutralSide }: DrawnBank): string {
  const hasSwitch = neutralSide === 'switched'
  return state === 'bypassed'
    ? `bypassed: bypass closed, disconnect switches${hasSwitch ? ' and neutral-side switches' : ''} open`
    : `in service: disconnect switches${hasSwitch ? ' and neutral-side switches' : ''} closed, bypass open`
}

function NodeMark({ placed: { node, x, y, joins } }: { readonly placed: PlacedNode }) {
  switch (node.kind) {
    case 'line':
      return <LineEnd x={x} y={y} label={node.label} isSource={node.column === 0} />
    case 'terminal':
      return (
        <g>
          <circle className="bank-terminal" cx={x} cy={y} r="4" />
          <text
            className="bank-terminal-name"
            x={node.label === 'L' ? x - 7 : x + 7}
            y={y - 6}
            textAnchor={node.label === 'L' ? 'end' : 'start'}
          >
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
