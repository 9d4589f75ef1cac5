import type { BankOneLine, OneLineBranch, OneLineNode } from '#domain/jobs/bank-one-line.ts'

export interface Spot {
  readonly x: number
  readonly y: number
}

export interface PlacedNode extends Spot {
  readonly node: OneLineNode
  /** How many branches meet there: a joint of three or more gets a dot. */
  readonly joins: number
}

export interface PlacedBranch {
  readonly branch: OneLineBranch
  readonly from: Spot
  readonly to: Spot
  /** Of a unit: its SL terminal, where the neutral side comes out. */
  readonly foot: Spot | null
}

export interface PlacedOneLine {
  readonly widthPx: number
  readonly heightPx: number
  readonly nodes: readonly PlacedNode[]
  readonly branches: readonly PlacedBranch[]
}

const COLUMN_PX = 100
const ROW_PX = 42
const MARGIN_PX = { x: 58, y: 26 }

/** The drawing's grid in pixels. */
export function placedOneLine({ columns, rows, nodes, branches }: BankOneLine): PlacedOneLine {
  const spots = new Map(nodes.map((node) => [node.id, spotOf(node)]))
  const ends = branches.flatMap(({ from, to }) => [from, to])
  return {
    widthPx: (columns - 1) * COLUMN_PX + 2 * MARGIN_PX.x,
    heightPx: (rows - 1) * ROW_PX + 2 * MARGIN_PX.y,
    nodes: nodes.map((node) => ({
      node,
      ...spotOf(node),
      joins: ends.filter((id) => id === node.id).length,
    })),
    branches: branches.flatMap((branch) => {
      const from = spots.get(branch.from)
      const to = spots.get(branch.to)
      return from && to ? [{ branch, from, to, foot: footOf(branch, nodes) }] : []
    }),
  }
}

function spotOf({ column, row }: OneLineNode): Spot {
  return { x: MARGIN_PX.x + column * COLUMN_PX, y: MARGIN_PX.y + row * ROW_PX }
}

function footOf({ kind, phase }: OneLineBranch, nodes: readonly OneLineNode[]): Spot | null {
  if (kind !== 'regulator unit') return null
  const terminal = nodes.find((node) => node.phase === phase && node.label === 'SL')
  return terminal ? spotOf(terminal) : null
}
