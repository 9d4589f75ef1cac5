import type { Network } from '#domain/electrical/network.ts'
import { DEFAULT_LIMITS } from '#domain/electrical/sweep.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { LoadCase } from '#domain/feeder/header.ts'
import { heaviestCase } from './downstream-load.ts'
import { compileJudge } from './limit-judge.ts'
import type { SiteRequest } from './site-request.ts'
import type { Study } from './study.ts'
import { trialOf } from './trial.ts'
import { benchOf, type CaseBench, type CaseTrial, tryControlled } from './trial-bench.ts'

/** The feeder as it stands has no solution in this case, so nothing can be compared with it. */
export interface NoSolution {
  readonly status: 'not-converged'
  readonly caseId: string
  readonly what: string
}

/** Solves the feeder as it stands in every case and lays out what the trials need. */
export function beginStudy(
  feeder: Feeder,
  network: Network,
  cases: readonly LoadCase[],
  request: SiteRequest,
): Study | NoSolution {
  const limits = {
    lowVolts120: request.lowVolts120 ?? feeder.header.limits.lowVolts120,
    highVolts120: request.highVolts120 ?? feeder.header.limits.highVolts120,
  }
  const judge = compileJudge(feeder, network, limits)
  const benches = cases.map((loadCase) => benchOf(network, judge, loadCase))
  const before: CaseTrial[] = []
  for (const bench of benches) {
    const solved = tryControlled(bench, [], DEFAULT_LIMITS)
    if (!solved) return noSolution(bench)
    before.push(solved)
  }
  return {
    feeder,
    network,
    request,
    limits,
    cases,
    judge,
    benches,
    before: trialOf(
      benches,
      before.map((solved) => ({ ...solved, taps: [] })),
    ),
    puBefore: benches.map((bench) => bench.pu.slice()),
    heaviest: cases.findIndex(({ id }) => id === heaviestCase(feeder, cases)?.id),
  }
}

function noSolution({ loadCase }: CaseBench): NoSolution {
  return {
    status: 'not-converged',
    caseId: loadCase.id,
    what: `The feeder as it stands has no settled solution in ${loadCase.name}; solve that case alone to see why.`,
  }
}
