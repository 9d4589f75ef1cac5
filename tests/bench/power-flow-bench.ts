import { compileNetwork } from '#domain/electrical/compile-network.ts'
import type { Network } from '#domain/electrical/network.ts'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import { Sweep } from '#domain/electrical/sweep.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { inWords, medianMs, printTable } from './measure.ts'
import { type ObjectNode, objectTree, sweepObjects } from './object-sweep.ts'

const LIMITS = { tolerancePu: 1e-8, maxIterations: 100 }

function compiled(feeder: Feeder): Network {
  const result = compileNetwork(feeder)
  if (result.status === 'rejected') throw new Error(`${feeder.header.id} has errors.`)
  return result.network
}

function firstCase(feeder: Feeder) {
  const [loadCase] = feeder.header.cases
  if (!loadCase) throw new Error(`${feeder.header.id} has no case.`)
  return loadCase
}

/** Compile, one cold sweep and a whole answer, for each feeder as recorded; scaling against the first. */
export function benchPowerFlow(feeders: readonly Feeder[]): void {
  const rows = [
    [
      'feeder',
      'nodes',
      'compile',
      'sweep',
      'iterations',
      'ns/node/iteration',
      'whole answer, all cases',
    ],
  ]
  for (const feeder of feeders) {
    const network = compiled(feeder)
    const sweep = new Sweep(network)
    sweep.setCase(firstCase(feeder))
    let iterations = 0
    const sweepMs = medianMs(() => {
      sweep.startFlat()
      iterations = sweep.run(LIMITS).iterations
    }, 15)
    const perNodeNs = (sweepMs * 1e6) / (network.nodeCount * iterations)
    rows.push([
      feeder.header.id,
      String(network.nodeCount),
      inWords(medianMs(() => compiled(feeder), 3)),
      inWords(sweepMs),
      String(iterations),
      perNodeNs.toFixed(0),
      inWords(medianMs(() => solveFeeder(feeder, { taps: 'controlled' }), 3)),
    ])
  }
  printTable('Power flow (one cold sweep of the first case to 1e-8 per unit)', rows)
}

/** Flat arrays against the same sweep written with objects, in the same run and to the same tolerance. */
export function benchAgainstObjects(feeders: readonly Feeder[]): void {
  const rows = [['feeder', 'nodes', 'flat arrays', 'objects', 'ratio', 'largest difference, pu']]
  for (const feeder of feeders) {
    const network = compiled(feeder)
    const loadCase = firstCase(feeder)
    const sweep = new Sweep(network)
    sweep.setCase(loadCase)
    const flatMs = medianMs(() => {
      sweep.startFlat()
      sweep.run(LIMITS)
    }, 15)
    const nodes = objectTree(network, loadCase.loadFactor)
    const objectMs = medianMs(
      () => sweepObjects(nodes, network.source.voltagePu[0], LIMITS.tolerancePu),
      3,
    )
    rows.push([
      feeder.header.id,
      String(network.nodeCount),
      inWords(flatMs),
      inWords(objectMs),
      `${(objectMs / flatMs).toFixed(0)} times`,
      largestDifferencePu(sweep, nodes).toExponential(1),
    ])
  }
  printTable('Flat arrays against plain complex objects', rows)
}

function largestDifferencePu({ voltageV }: Sweep, nodes: readonly ObjectNode[]): number {
  let largest = 0
  nodes.forEach(({ voltage, nominalV }, i) => {
    voltage.forEach(({ re, im }, phase) => {
      const at = i * 6 + phase * 2
      const apart = Math.hypot(re - voltageV[at]!, im - voltageV[at + 1]!)
      largest = Math.max(largest, apart / nominalV)
    })
  })
  return largest
}
