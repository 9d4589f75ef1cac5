import { add, type Complex, complex, conj, multiply, subtract } from 'mathjs'
import type { CaseSolution, SpanFlow } from '#domain/electrical/solution.ts'
import { PHASES } from '#domain/units/phases.ts'
import type { ModelBranch, ModelDraw, NodalModel } from './nodal-model.ts'
import { drawnCurrent, keyOf, type NodalVoltages, sizeOf } from './nodal-solution.ts'

export type Converged = Extract<CaseSolution, { status: 'converged' }>

const times = (a: Complex, b: Complex | number) => multiply(a, b) as Complex
const plus = (a: Complex, b: Complex) => add(a, b) as Complex
const minus = (a: Complex, b: Complex) => subtract(a, b) as Complex
const zero = complex(0, 0)

/** Volts to ground of a solution, by node and phase. */
export function voltsOf(solution: Converged): Map<string, Complex> {
  return new Map(
    solution.nodes.flatMap(({ id, nominalV, phases }) =>
      PHASES.flatMap((phase) => {
        const at = phases[phase]
        if (!at) return []
        const polar = { r: at.pu * nominalV, phi: (at.angleDeg * Math.PI) / 180 }
        return [[keyOf(id, phase), complex(polar)] as const]
      }),
    ),
  )
}

export interface FlowBalance {
  /** Largest current that arrives at a pole and neither leaves nor is drawn there, over the largest current. */
  readonly worstMismatch: number
  /** Kilovolt-amperes that the source gives: its voltage times the current that leaves it. */
  readonly input: Complex
  /** Kilovolt-amperes that loads, generators and capacitors take at the solved voltages. */
  readonly drawn: Complex
}

/** Adds up amperes by node and phase. */
class AmpsByNode {
  readonly #sums = new Map<string, Complex>()

  put(key: string, amps: Complex): void {
    this.#sums.set(key, plus(this.at(key), amps))
  }

  at(key: string): Complex {
    return this.#sums.get(key) ?? zero
  }

  keys(): string[] {
    return [...this.#sums.keys()]
  }
}

/**
 * Kirchhoff's current law at every pole and phase, from the reported currents at the near end of
 * each span, carried to the far end by the charging of the line and what is drawn on the way.
 */
export function flowBalance(model: NodalModel, solution: Converged): FlowBalance {
  const volts = voltsOf(solution)
  const drawn = drawnAtNodes(model, volts)
  const arriving = new AmpsByNode()
  for (const flow of solution.spans) carryAlong(flow, model, volts, drawn, arriving)
  const pole = poleOfSource(model)
  let input = zero
  for (const phase of PHASES) {
    const key = keyOf(pole, phase)
    const leaving = minus(drawn.at(key), arriving.at(key))
    input = plus(input, times(times(model.sourceV[phase], conj(leaving) as Complex), 1e-3))
  }
  const mismatches = arriving
    .keys()
    .filter((key) => !key.startsWith(`${pole} `))
    .map((key) => sizeOf(minus(arriving.at(key), drawn.at(key))))
  const largestA = Math.max(
    1,
    ...solution.spans.flatMap(({ current }) => PHASES.map((phase) => current[phase]?.amps ?? 0)),
  )
  return {
    worstMismatch: Math.max(...mismatches) / largestA,
    input,
    drawn: drawnPower(model, volts),
  }
}

/** Takes the span's current from its near pole and brings what is left of it to its far pole. */
function carryAlong(
  flow: SpanFlow,
  model: NodalModel,
  volts: NodalVoltages,
  drawn: AmpsByNode,
  arriving: AmpsByNode,
): void {
  const branches = model.branches.filter(({ span }) => span === flow.id)
  const [first] = branches
  if (!first) throw new Error(`Span ${flow.id} is not in the model.`)
  const { phases } = first
  let amps = phases.map((phase) => ampsOf(flow.current[phase]))
  for (const [k, near] of atNear(first, amps).entries()) {
    arriving.put(keyOf(first.near, PHASES[k]!), times(near, -1))
  }
  for (const branch of branches) {
    if (branch !== first) amps = behindTurns(branch, amps)
    const far = atFar(branch, amps, volts)
    const isPole = branch === branches.at(-1)
    for (const [k, phase] of phases.entries()) {
      const key = keyOf(branch.far, phase)
      if (isPole) arriving.put(key, far[k]!)
      else far[k] = minus(far[k]!, drawn.at(key))
    }
    amps = far
  }
}

function ampsOf(flow: { amps: number; angleDeg: number } | undefined): Complex {
  return flow ? complex({ r: flow.amps, phi: (flow.angleDeg * Math.PI) / 180 }) : zero
}

function poleOfSource({ source, branches }: NodalModel): string {
  return branches.find(({ near, span }) => near === source && span === null)?.far ?? source
}

/** Current at the pole, before the turns: the transpose of the turns times that behind them. */
function atNear({ turns }: ModelBranch, behind: readonly Complex[]): Complex[] {
  return PHASES.map((_, column) =>
    behind.reduce((sum, amps, row) => plus(sum, times(amps, turns[row]![column]!)), zero),
  )
}

/** Current behind turns that join each phase only to itself. */
function behindTurns({ turns, phases }: ModelBranch, before: readonly Complex[]): Complex[] {
  return before.map((amps, row) => times(amps, 1 / turns[row]![PHASES.indexOf(phases[row]!)]!))
}

/** What arrives at the far end: the charging of both ends is taken off. */
function atFar(branch: ModelBranch, behind: readonly Complex[], volts: NodalVoltages): Complex[] {
  const { near, far, phases, halfB, turns } = branch
  const ends = phases.map((phase, row) => {
    const nearV = PHASES.reduce((sum, column, k) => {
      const turn = turns[row]![k]!
      return turn === 0 ? sum : plus(sum, times(volts.get(keyOf(near, column))!, turn))
    }, zero)
    return plus(nearV, volts.get(keyOf(far, phase))!)
  })
  return behind.map((amps, row) =>
    ends.reduce((left, v, column) => minus(left, times(v, complex(0, halfB[row]![column]!))), amps),
  )
}

function drawnAtNodes(model: NodalModel, volts: NodalVoltages): AmpsByNode {
  const drawn = new AmpsByNode()
  for (const draw of model.draws) {
    const across = voltsAcross(draw, volts)
    if (!across) continue
    const amps = drawnCurrent(draw, across)
    drawn.put(keyOf(draw.node, draw.from), amps)
    if (draw.to) drawn.put(keyOf(draw.node, draw.to), times(amps, -1))
  }
  return drawn
}

function drawnPower(model: NodalModel, volts: NodalVoltages): Complex {
  return model.draws.reduce((sum, draw) => {
    const across = voltsAcross(draw, volts)
    if (!across) return sum
    const kva = times(times(across, conj(drawnCurrent(draw, across)) as Complex), 1e-3)
    return plus(sum, kva)
  }, zero)
}

function voltsAcross({ node, from, to }: ModelDraw, volts: NodalVoltages): Complex | null {
  const a = volts.get(keyOf(node, from))
  if (!to) return a ?? null
  const b = volts.get(keyOf(node, to))
  return a && b ? minus(a, b) : null
}
