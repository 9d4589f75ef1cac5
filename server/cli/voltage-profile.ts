import type { CaseSolution, NodeVoltage } from '#domain/electrical/solution.ts'
import type { Phase } from '#domain/units/phases.ts'
import { miles } from './miles.ts'
import { type Sample, sparkline } from './sparkline.ts'
import { highestOf, lowestOf } from './voltage-extremes.ts'

export type ConvergedCase = Extract<CaseSolution, { status: 'converged' }>

const WIDTH = 60
export const PHASES: readonly Phase[] = ['A', 'B', 'C']

/** Nodes from the source to a pole in order, with the load sides of regulators on the way. */
export function wayTo(solution: ConvergedCase, poleId: string): NodeVoltage[] {
  const feeding = new Map(solution.spans.map((span) => [span.to, span]))
  const nodes = new Map(solution.nodes.map((node) => [node.id, node]))
  const banks = new Map(solution.regulators.map((bank) => [bank.spanId, `${bank.id}:out`]))
  const way: (NodeVoltage | undefined)[] = []
  let pole: string | undefined = poleId
  while (pole !== undefined) {
    const span = feeding.get(pole)
    const bank = span ? banks.get(span.id) : undefined
    way.push(nodes.get(pole), ...(bank === undefined ? [] : [nodes.get(bank)]))
    pole = span?.from
  }
  return way.filter((node) => node !== undefined).reverse()
}

/** Text drawing of the voltage along the line to the node that is lowest. */
export function profileText(solution: ConvergedCase): string {
  const lowest = lowestOf(solution.nodes)
  const highest = highestOf(solution.nodes)
  const pole = solution.nodes.find(({ id }) => id === lowest.node)?.poleId ?? lowest.node
  const way = wayTo(solution, pole)
  const lengthM = way.at(-1)?.distanceM ?? 0
  const frame = {
    from: Math.floor(lowest.volts120),
    to: Math.ceil(highest.volts120),
    lengthM,
    width: WIDTH,
  }
  const rows = PHASES.flatMap((phase) => {
    const samples: Sample[] = way.flatMap(({ distanceM, phases }) => {
      const voltage = phases[phase]
      return voltage ? [{ distanceM, value: voltage.volts120 }] : []
    })
    const last = samples.at(-1)
    if (!last) return []
    return [`  ${phase} ${sparkline(samples, frame)} ${last.value.toFixed(1)}`]
  })
  const wayMiles = miles(lengthM).toFixed(1)
  const title = `Profile from ${way[0]?.poleId ?? ''} to ${pole}, ${wayMiles} mi; ▁ ${frame.from} V to █ ${frame.to} V`
  return [title, ...rows].join('\n')
}
