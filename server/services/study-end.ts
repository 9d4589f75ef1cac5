import type { Study, StudyProblem } from '#contract/studies.ts'
import type { SiteOutcome } from '#domain/siting/site-feeder.ts'

type Ending = Pick<Study, 'state' | 'result' | 'problem'>

/** What was left behind by a server that did not end by itself, or that was told to stop. */
export const INTERRUPTED: Ending = failed({
  code: 'interrupted',
  detail: 'The server stopped before the study ended. Start it again.',
})

/** The final state that an outcome of the siting job stands for. */
export function endingOf(outcome: SiteOutcome): Ending {
  switch (outcome.status) {
    case 'done':
      return { state: 'done', result: outcome.result }
    case 'cancelled':
      return { state: 'cancelled' }
    case 'rejected':
      return failed({
        code: 'feeder-refused',
        detail:
          'The feeder has errors, so no bank can be sited on it. Each finding says what to do.',
        findings: [...outcome.findings],
      })
    case 'not-converged':
      return failed({ code: 'not-converged', detail: outcome.what })
  }
}

export function endingOfFault(fault: unknown): Ending {
  const reason = fault instanceof Error ? fault.message : String(fault)
  return failed({
    code: 'internal',
    detail: `The study broke off by a fault of the program: ${reason}`,
  })
}

function failed(problem: StudyProblem): Ending {
  return { state: 'failed', problem }
}
