import type { CaseSolution } from '#domain/electrical/solution.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { bypassedBanks } from './bypassed-banks.ts'

type Solved = Exclude<CaseSolution, { status: 'rejected' }>

/** The answer for a program; its form is written in the command's help and kept stable. */
export function voltageJson(feeder: Feeder, solution: Solved): unknown {
  const { caseId, iterations } = solution
  const head = {
    feeder: feeder.header.id,
    case: caseId,
    converged: solution.status === 'converged',
  }
  const bypassed = bypassedBanks(feeder).map(({ id }) => id)
  if (solution.status === 'not-converged') {
    const { reason, what } = solution
    return { ...head, iterations, reason, what, nodes: [], regulators: [], bypassed, totals: null }
  }
  const { inputKw, inputKvar, lossKw, lossKvar } = solution.totals
  return {
    ...head,
    iterations,
    nodes: solution.nodes.map(({ id, phases }) => ({ id, phases })),
    regulators: solution.regulators.map(({ id, taps }) => ({ id, taps })),
    bypassed,
    totals: { inputKw, inputKvar, lossKw, lossKvar },
  }
}
