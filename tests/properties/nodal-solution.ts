import { add, type Complex, complex, conj, divide, inv, multiply, subtract } from 'mathjs'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import type { ModelBranch, ModelDraw, NodalModel } from './nodal-model.ts'

/** Volts to ground by node and phase, keyed `node phase`. */
export type NodalVoltages = ReadonlyMap<string, Complex>

export const keyOf = (node: string, phase: Phase): string => `${node} ${phase}`

const times = (a: Complex, b: Complex | number) => multiply(a, b) as Complex
const over = (a: Complex, b: Complex | number) => divide(a, b) as Complex
const plus = (a: Complex, b: Complex) => add(a, b) as Complex
const minus = (a: Complex, b: Complex) => subtract(a, b) as Complex
const zero = complex(0, 0)

/** Current that a draw takes out of its `from` phase at the given volts across it. */
export function drawnCurrent(draw: ModelDraw, volts: Complex): Complex {
  const u = sizeOf(volts) / draw.ratedV
  const constantImpedance = 1 - draw.constantPower - draw.constantCurrent
  const zip = draw.constantPower + draw.constantCurrent * u + constantImpedance * u * u
  return conj(over(times(draw.kva, 1000 * zip), volts)) as Complex
}

/**
 * Nodal-admittance solution: Y V = I by current injection. Y holds the branches with their turns
 * (Yff = y + jB/2, Ynn = Tᵀ(y + jB/2)T, Ynf = −Tᵀy); loads inject their current at the voltages of
 * the last pass. Dense complex matrices; nothing of it sweeps along the tree.
 */
export function solveNodal(model: NodalModel, tolerancePu = 1e-12): NodalVoltages {
  const keys = nodeKeys(model)
  const isFixed = (key: string) => key.startsWith(`${model.source} `)
  const free = keys.filter((key) => !isFixed(key))
  const index = new Map(free.map((key, i) => [key, i]))
  const fixed = new Map(PHASES.map((phase) => [keyOf(model.source, phase), model.sourceV[phase]]))
  const y = free.map(() => free.map(() => zero))
  const fromSource = free.map(() => zero)
  for (const branch of model.branches) {
    for (const { row, column, siemens } of stamps(branch)) {
      const i = index.get(row)
      if (i === undefined) continue
      const j = index.get(column)
      if (j !== undefined) y[i]![j] = plus(y[i]![j]!, siemens)
      else fromSource[i] = plus(fromSource[i]!, times(siemens, fixed.get(column)!))
    }
  }
  const impedance = inv(y as never) as unknown as Complex[][]
  const noLoad = fromSource.map((current) => times(current, -1))
  let volts = timesVector(impedance, noLoad)
  for (let pass = 0; pass < 500; pass++) {
    const current = [...noLoad]
    const voltageOf = (key: string) => fixed.get(key) ?? volts[index.get(key)!]!
    for (const draw of model.draws) injectDraw(draw, current, index, voltageOf)
    const next = timesVector(impedance, current)
    const change = Math.max(...next.map((v, i) => sizeOf(minus(v, volts[i]!)) / sizeOf(v)))
    volts = next
    if (change < tolerancePu)
      return new Map([...fixed, ...free.map((key, i) => [key, volts[i]!] as const)])
  }
  throw new Error('The nodal solution did not settle in 500 passes.')
}

export const sizeOf = (value: Complex): number => Math.hypot(value.re, value.im)

function nodeKeys({ source, branches }: NodalModel): string[] {
  const keys = new Set(PHASES.map((phase) => keyOf(source, phase)))
  for (const { far, phases } of branches) for (const phase of phases) keys.add(keyOf(far, phase))
  return [...keys]
}

function timesVector(matrix: readonly Complex[][], vector: readonly Complex[]): Complex[] {
  return matrix.map((row) =>
    row.reduce((sum, value, i) => plus(sum, times(value, vector[i]!)), zero),
  )
}

function injectDraw(
  draw: ModelDraw,
  current: Complex[],
  index: ReadonlyMap<string, number>,
  voltageOf: (key: string) => Complex,
): void {
  if (draw.kva.re === 0 && draw.kva.im === 0) return
  const from = keyOf(draw.node, draw.from)
  const to = draw.to && keyOf(draw.node, draw.to)
  const volts = to ? minus(voltageOf(from), voltageOf(to)) : voltageOf(from)
  const amps = drawnCurrent(draw, volts)
  const i = index.get(from)
  const j = to ? index.get(to) : undefined
  if (i !== undefined) current[i] = minus(current[i]!, amps)
  if (j !== undefined) current[j] = plus(current[j]!, amps)
}

interface Stamp {
  readonly row: string
  readonly column: string
  readonly siemens: Complex
}

function stamps({ near, far, phases, z, halfB, turns }: ModelBranch): Stamp[] {
  const series = inv(z as never) as unknown as Complex[][]
  const size = phases.length
  const whole = series.map((row, i) => row.map((y, j) => plus(y, complex(0, halfB[i]![j]!))))
  const found: Stamp[] = []
  const turned = (
    matrix: Complex[][],
    row: number,
    column: number,
    onLeft: boolean,
    onRight: boolean,
  ) => {
    let sum = zero
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < size; j++) {
        const left = onLeft ? turns[i]![row]! : Number(i === row)
        const right = onRight ? turns[j]![column]! : Number(j === column)
        sum = plus(sum, times(matrix[i]![j]!, left * right))
      }
    }
    return sum
  }
  const nearRows = PHASES.map((phase, k) => ({ phase, k })).filter(({ k }) =>
    turns.some((row) => row[k] !== 0),
  )
  for (const { phase: a, k: row } of nearRows) {
    for (const { phase: b, k: column } of nearRows) {
      found.push({
        row: keyOf(near, a),
        column: keyOf(near, b),
        siemens: turned(whole, row, column, true, true),
      })
    }
    phases.forEach((b, column) => {
      const siemens = times(turned(series, row, column, true, false), -1)
      found.push({ row: keyOf(near, a), column: keyOf(far, b), siemens })
      found.push({ row: keyOf(far, b), column: keyOf(near, a), siemens })
    })
  }
  phases.forEach((a, row) => {
    phases.forEach((b, column) => {
      found.push({ row: keyOf(far, a), column: keyOf(far, b), siemens: whole[row]![column]! })
    })
  })
  return found
}
