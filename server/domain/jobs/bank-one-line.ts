import { type Phase, phaseMask, phasesOfMask } from '#domain/units/phases.ts'
import type { Regulator } from '../feeder/equipment.ts'

export type OneLineNodeKind = 'line' | 'joint' | 'terminal' | 'neutral' | 'ground'

/** A point of the drawing, in a grid: columns from the source to the load, rows from the top. */
export interface OneLineNode {
  readonly id: string
  readonly phase: Phase
  readonly kind: OneLineNodeKind
  readonly column: number
  readonly row: number
  /** "S", "L", "SL", or where the line goes; empty at a mere joint. */
  readonly label: string
}

export type OneLineBranchKind =
  | 'conductor'
  | 'source switch'
  | 'load switch'
  | 'bypass switch'
  | 'neutral-side switch'
  | 'regulator unit'
  | 'series arrester'
  | 'arrester'

/** What joins two points. */
export interface OneLineBranch {
  readonly id: string
  readonly phase: Phase
  readonly kind: OneLineBranchKind
  readonly from: string
  readonly to: string
  readonly label: string
  /** How a switch stands; null for what is no switch. */
  readonly stands: 'open' | 'closed' | null
}

/** One-line drawing of a bank as plain data; whoever draws it chooses sizes and signs. */
export interface BankOneLine {
  readonly columns: number
  readonly rows: number
  readonly nodes: readonly OneLineNode[]
  readonly branches: readonly OneLineBranch[]
}

/** What the drawing shows of a bank. */
export type DrawnBank = Pick<Regulator, 'phases' | 'state' | 'neutralSide'>

/** Rows that one unit takes: its bypass, the way through it, its neutral side and ground. */
const ROWS_OF_UNIT = 5
const COLUMNS = 7

/**
 * The bank unit by unit, wye connected: source and load disconnect switches, the bypass around them,
 * the SL terminal to the neutral, by a switch where the units have one, an arrester on either side
 * and one across the series winding. The switches stand as in service, or as bypassed.
 */
export function bankOneLine(regulator: DrawnBank): BankOneLine {
  const phases = phasesOfMask(phaseMask(regulator.phases))
  const units = phases.map((phase, index) => unitOneLine(phase, index * ROWS_OF_UNIT, regulator))
  return {
    columns: COLUMNS,
    rows: phases.length * ROWS_OF_UNIT,
    nodes: units.flatMap(({ nodes }) => nodes),
    branches: units.flatMap(({ branches }) => branches),
  }
}

type NodeRow = readonly [
  name: string,
  kind: OneLineNodeKind,
  column: number,
  row: number,
  label: string,
]

const NODES: readonly NodeRow[] = [
  ['bypass-source', 'joint', 1, 0, ''],
  ['bypass-load', 'joint', 5, 0, ''],
  ['source', 'line', 0, 1, 'source'],
  ['source-tap', 'joint', 1, 1, ''],
  ['s', 'terminal', 2, 1, 'S'],
  ['l', 'terminal', 4, 1, 'L'],
  ['load-tap', 'joint', 5, 1, ''],
  ['load', 'line', 6, 1, 'load'],
  ['series-source', 'joint', 2, 2, ''],
  ['series-load', 'joint', 4, 2, ''],
  ['sl', 'terminal', 3, 3, 'SL'],
  ['ground-source', 'ground', 2, 4, ''],
  ['neutral', 'neutral', 3, 4, 'neutral'],
  ['ground-load', 'ground', 4, 4, ''],
]

type BranchRow = readonly [from: string, to: string, kind: OneLineBranchKind, label?: string]

/** All but the way from SL to the neutral. The unit is named by its phase. */
const BRANCHES: readonly BranchRow[] = [
  ['source', 'source-tap', 'conductor'],
  ['source-tap', 's', 'source switch', 'source disconnect'],
  ['s', 'l', 'regulator unit'],
  ['l', 'load-tap', 'load switch', 'load disconnect'],
  ['load-tap', 'load', 'conductor'],
  ['source-tap', 'bypass-source', 'conductor'],
  ['bypass-source', 'bypass-load', 'bypass switch', 'bypass'],
  ['bypass-load', 'load-tap', 'conductor'],
  ['s', 'series-source', 'conductor'],
  ['series-source', 'series-load', 'series arrester', 'series arrester'],
  ['series-load', 'l', 'conductor'],
  ['series-source', 'ground-source', 'arrester', 'source arrester'],
  ['series-load', 'ground-load', 'arrester', 'load arrester'],
]
const SOLID_NEUTRAL: BranchRow = ['sl', 'neutral', 'conductor']
const SWITCHED_NEUTRAL: BranchRow = ['sl', 'neutral', 'neutral-side switch', 'neutral-side switch']

type Stand = Partial<Readonly<Record<OneLineBranchKind, OneLineBranch['stands']>>>

const IN_SERVICE: Stand = {
  'source switch': 'closed',
  'load switch': 'closed',
  'bypass switch': 'open',
  'neutral-side switch': 'closed',
}
/** The units hang off the line on every side. */
const BYPASSED: Stand = {
  'source switch': 'open',
  'load switch': 'open',
  'bypass switch': 'closed',
  'neutral-side switch': 'open',
}

function unitOneLine(phase: Phase, firstRow: number, { state, neutralSide }: DrawnBank) {
  const id = (name: string) => `${phase}-${name}`
  const nodes = NODES.map(
    ([name, kind, column, row, label]): OneLineNode => ({
      id: id(name),
      phase,
      kind,
      column,
      row: firstRow + row,
      label: kind === 'line' ? `${phase} ${label}` : label,
    }),
  )
  const rows = [...BRANCHES, neutralSide === 'switched' ? SWITCHED_NEUTRAL : SOLID_NEUTRAL]
  const stand = state === 'bypassed' ? BYPASSED : IN_SERVICE
  const branches = rows.map(
    ([from, to, kind, label = '']): OneLineBranch => ({
      id: id(`${from}~${to}`),
      phase,
      kind,
      from: id(from),
      to: id(to),
      label: kind === 'regulator unit' ? `${phase} unit` : label,
      stands: stand[kind] ?? null,
    }),
  )
  return { nodes, branches }
}
