import type { CaseSolution, NodeVoltage, SpanFlow } from '#domain/electrical/solution.ts'

export type Converged = Extract<CaseSolution, { status: 'converged' }>

/** The solution of a case where it converged; null else. */
export function convergedCase(
  solutions: readonly CaseSolution[] | undefined,
  caseId: string,
): Converged | null {
  const found = solutions?.find((solution) => 'caseId' in solution && solution.caseId === caseId)
  return found?.status === 'converged' ? found : null
}

/** Why a case has no voltages, in words; null where it has. */
export function whyUnsolved(
  solutions: readonly CaseSolution[] | undefined,
  caseId: string,
): string | null {
  for (const solution of solutions ?? []) {
    if (solution.status === 'rejected') {
      return solution.findings.map(({ what }) => what).join(' ')
    }
    if (solution.caseId === caseId && solution.status === 'not-converged') return solution.what
  }
  return null
}

export function nodesByPole({ nodes }: Converged): Map<string, NodeVoltage> {
  return new Map(nodes.filter(({ id, poleId }) => id === poleId).map((node) => [node.id, node]))
}

export function flowsBySpan({ spans }: Converged): Map<string, SpanFlow> {
  return new Map(spans.map((flow) => [flow.id, flow]))
}
