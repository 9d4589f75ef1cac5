import type { CaseSolution } from '#domain/electrical/solution.ts'

type Solved = Exclude<CaseSolution, { status: 'rejected' }>

/** The answer for a program; its form is written in the command's help and kept stable. */
export function voltageJson(feederId: string, solution: Solved): unknown {
  const { caseId, iterations } = solution
  const head = { feeder: feederId, case: caseId, converged: solution.status === 'converged' }
  if (solution.status === 'not-converged') {
    const { reason, what } = solution
    return { ...head, iterations, reason, what, nodes: [], regulators: [], totals: null }
  }
  const { inputKw, inputKvar, lossKw, lossKvar } = solution.totals
  return {
    ...head,
    iterations,
    nodes: solution.nodes.map(({ id, phases }) => ({ id, phases })),
    regulators: solution.regulators.map(({ id, taps }) => ({ id, taps })),
    totals: { inputKw, inputKvar, lossKw, lossKvar },
  }
}
