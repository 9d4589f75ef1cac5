import { type Complex, complex, type MathType } from 'mathjs'
import type { Equipment, Regulator, Transformer } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { MatrixLineType } from '#domain/feeder/line-type.ts'
import type { Load } from '#domain/feeder/load.ts'
import type { Span } from '#domain/feeder/span.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'

/**
 * A feeder as a list of branches and a list of draws, read from the records alone and without the
 * code under test, so that the two can be held against each other.
 */

/** Series impedance behind a real turns matrix, with half of the charging at each of its ends. */
export interface ModelBranch {
  readonly span: string | null
  readonly near: string
  readonly far: string
  readonly phases: readonly Phase[]
  /** Ohms, phases × phases. */
  readonly z: Complex[][]
  /** Siemens, phases × phases; half of the line's charging susceptance. */
  readonly halfB: number[][]
  /** Voltage behind the turns = `turns` × near voltages; phases × phases of the near node (A, B, C). */
  readonly turns: number[][]
}

/** Power of a load, capacitor or generator between a phase and ground, or between two phases. */
export interface ModelDraw {
  readonly node: string
  readonly from: Phase
  readonly to: Phase | null
  readonly kva: Complex
  readonly ratedV: number
  readonly constantPower: number
  readonly constantCurrent: number
}

export interface NodalModel {
  readonly source: string
  readonly sourceV: Record<Phase, Complex>
  readonly branches: readonly ModelBranch[]
  readonly draws: readonly ModelDraw[]
  /** Nominal line-to-neutral volts by node. */
  readonly nominalV: ReadonlyMap<string, number>
}

export function nodalModel(feeder: Feeder): NodalModel {
  const [loadCase] = feeder.header.cases
  if (!loadCase) throw new Error('The feeder has no case.')
  const start = sourceOf(feeder)
  const nominalV = new Map(
    start.nodes.map((node) => [node, lineToNeutralV(feeder.header.nominalKv)]),
  )
  const branches = [...start.branches]
  const quarters = new Map<string, string>()
  for (const span of feeder.spans) branches.push(...spanBranches(feeder, span, nominalV, quarters))
  const draws = [
    ...feeder.loads.flatMap((load) =>
      loadDraws(load, loadCase.loadFactor, nominalV, quarters, feeder),
    ),
    ...feeder.equipment.flatMap((item) => shuntDraws(item, loadCase.generationFactor, nominalV)),
  ]
  return { source: start.source, sourceV: start.sourceV, branches, draws, nominalV }
}

const lineToNeutralV = (kv: number) => (kv * 1000) / Math.sqrt(3)
const identity = (phases: readonly Phase[], gain: (phase: Phase) => number = () => 1) =>
  phases.map((row) => PHASES.map((column) => (row === column ? gain(row) : 0)))
const filled = <Value>(size: number, value: (row: number, column: number) => Value) =>
  Array.from({ length: size }, (_, row) => Array.from({ length: size }, (_, c) => value(row, c)))

function sourceOf({ header }: Feeder) {
  const { pole, voltagePu, angleDeg, impedance } = header.source
  const perPhase =
    typeof voltagePu === 'number' ? { A: voltagePu, B: voltagePu, C: voltagePu } : voltagePu
  const volts = (phase: Phase, turnDeg: number) =>
    complex({
      r: lineToNeutralV(header.nominalKv) * perPhase[phase],
      phi: ((angleDeg + turnDeg) * Math.PI) / 180,
    })
  const sourceV = { A: volts('A', 0), B: volts('B', -120), C: volts('C', 120) }
  if (!impedance) return { source: pole, sourceV, branches: [], nodes: [pole] }
  const { r1Ohm, x1Ohm, r0Ohm, x0Ohm } = impedance
  const self = complex((r0Ohm + 2 * r1Ohm) / 3, (x0Ohm + 2 * x1Ohm) / 3)
  const mutual = complex((r0Ohm - r1Ohm) / 3, (x0Ohm - x1Ohm) / 3)
  const branch: ModelBranch = {
    span: null,
    near: 'behind the source',
    far: pole,
    phases: PHASES,
    z: filled(3, (row, column) => (row === column ? self : mutual)),
    halfB: filled(3, () => 0),
    turns: identity(PHASES),
  }
  return { source: branch.near, sourceV, branches: [branch], nodes: [branch.near, pole] }
}

function spanBranches(
  feeder: Feeder,
  span: Span,
  nominalV: Map<string, number>,
  quarters: Map<string, string>,
): ModelBranch[] {
  const phases = PHASES.filter((phase) => span.phases.includes(phase))
  const branches: ModelBranch[] = []
  let near = span.from
  let turns = identity(phases)
  let volts = nominalV.get(near) ?? Number.NaN
  for (const item of feeder.equipment) {
    if (!('span' in item) || item.span !== span.id) continue
    if (item.kind === 'regulator') {
      turns = identity(phases, (phase) => regulatorGain(item, phase))
    }
    if (item.kind !== 'transformer') continue
    volts = lineToNeutralV(item.lowKv ?? Number.NaN)
    const far = `${item.id}:out`
    const { z, halfB, turns: own } = transformer(item, phases)
    branches.push({
      span: span.id,
      near,
      far,
      phases,
      z,
      halfB,
      turns: behindGains(own, turns, phases),
    })
    turns = identity(phases)
    nominalV.set(far, volts)
    near = far
  }
  const type = feeder.header.lineTypes.find(({ id }) => id === span.lineType) as MatrixLineType
  const line = (from: string, to: string, share: number, behind: number[][]): ModelBranch => {
    const km = ((span.lengthM ?? Number.NaN) / 1000) * share
    const at = (row: number, column: number) => {
      const [a, b] = [phases[row]!, phases[column]!].sort()
      return `${a}${b}` as 'AA' | 'AB'
    }
    return {
      span: span.id,
      near: from,
      far: to,
      phases,
      z: filled(phases.length, (row, column) => {
        const [r, x] = type.zOhmPerKm[at(row, column)] ?? [0, 0]
        return complex(r * km, x * km)
      }),
      halfB: filled(
        phases.length,
        (row, column) => ((type.bMicrosiemensPerKm?.[at(row, column)] ?? 0) * 1e-6 * km) / 2,
      ),
      turns: behind,
    }
  }
  nominalV.set(span.to, volts)
  if (!feeder.loads.some((load) => load.span === span.id)) {
    return [...branches, line(near, span.to, 1, turns)]
  }
  const quarter = `${span.id}:quarter`
  quarters.set(span.id, quarter)
  nominalV.set(quarter, volts)
  return [
    ...branches,
    line(near, quarter, 0.25, turns),
    line(quarter, span.to, 0.75, identity(phases)),
  ]
}

/** Turns of a transformer fed by a regulator: each column times the gain of its phase. */
function behindGains(own: number[][], gains: number[][], phases: readonly Phase[]): number[][] {
  return own.map((row) =>
    row.map((value, column) => {
      const at = phases.indexOf(PHASES[column]!)
      return at < 0 ? value : value * gains[at]![column]!
    }),
  )
}

/**
 * Kersting, Distribution System Modeling and Analysis, chapter 7: effective ratios of type A and B.
 * The line runs past a bypassed bank.
 */
function regulatorGain(item: Regulator, phase: Phase): number {
  if (item.state === 'bypassed' || !item.phases.includes(phase)) return 1
  const step = 0.00625 * item[`tap${phase}`]
  return item.windingType === 'A' ? 1 + step : 1 / (1 - step)
}

/** Impedance on the low side; the delta side gives a from A − C, as ANSI's 30° lag has it. */
function transformer(item: Transformer, phases: readonly Phase[]) {
  const { highKv = 1, lowKv = 1, rPct = 0, xPct = 0, ratingKva, connection } = item
  const lowV = lineToNeutralV(lowKv)
  const baseOhm = lowV ** 2 / ((ratingKva * 1000) / phases.length)
  const own = complex((rPct / 100) * baseOhm, (xPct / 100) * baseOhm)
  const wye = lowKv / highKv
  const delta = lowV / (highKv * 1000)
  const turns =
    connection === 'delta-grounded-wye'
      ? [
          [delta, 0, -delta],
          [-delta, delta, 0],
          [0, -delta, delta],
        ]
      : identity(phases, () => wye)
  const z = filled(phases.length, (row, column) => (row === column ? own : complex(0, 0)))
  return { z, halfB: filled(phases.length, () => 0), turns }
}

function loadDraws(
  load: Load,
  factor: number,
  nominalV: ReadonlyMap<string, number>,
  quarters: ReadonlyMap<string, string>,
  feeder: Feeder,
): ModelDraw[] {
  const spreadOver = feeder.spans.find(({ id }) => id === load.span)
  // Kersting, chapter 3: two thirds of a uniform load at a quarter of the length, the rest at the end.
  const places = spreadOver
    ? [
        { node: quarters.get(spreadOver.id) ?? '', share: 2 / 3 },
        { node: spreadOver.to, share: 1 / 3 },
      ]
    : [{ node: load.pole ?? '', share: 1 }]
  const columns =
    load.connection === 'wye'
      ? ([
          ['A', null, load.kwA, load.kvarA],
          ['B', null, load.kwB, load.kvarB],
          ['C', null, load.kwC, load.kvarC],
        ] as const)
      : ([
          ['A', 'B', load.kwAb, load.kvarAb],
          ['B', 'C', load.kwBc, load.kvarBc],
          ['C', 'A', load.kwCa, load.kvarCa],
        ] as const)
  return places.flatMap(({ node, share }) =>
    columns.map(([from, to, kw, kvar]) => ({
      node,
      from,
      to,
      kva: complex(kw * factor * share, kvar * factor * share),
      ratedV: (nominalV.get(node) ?? Number.NaN) * (to ? Math.sqrt(3) : 1),
      constantPower: load.constantPower,
      constantCurrent: load.constantCurrent,
    })),
  )
}

function shuntDraws(
  item: Equipment,
  generationFactor: number,
  nominalV: ReadonlyMap<string, number>,
): ModelDraw[] {
  const ratedV = nominalV.get(item.pole) ?? Number.NaN
  const draw = (from: Phase, kva: MathType, constantPower: number): ModelDraw => ({
    node: item.pole,
    from,
    to: null,
    kva: kva as Complex,
    ratedV,
    constantPower,
    constantCurrent: 0,
  })
  const phases = PHASES.filter((phase) => item.phases.includes(phase))
  if (item.kind === 'capacitor') {
    return phases.map((phase) => draw(phase, complex(0, -item[`kvar${phase}`]), 0))
  }
  if (item.kind !== 'solar') return []
  const kw = (item.ratedKw / phases.length) * generationFactor
  const kvar = Math.sign(item.powerFactor) * kw * Math.sqrt(item.powerFactor ** -2 - 1)
  return phases.map((phase) => draw(phase, complex(-kw, -kvar), 1))
}
