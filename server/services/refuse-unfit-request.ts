import type { InputFault } from '#contract/problem.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import { Refusal } from './refusal.ts'

/**
 * What a study asks for must fit the feeder.
 *
 * @throws Refusal `malformed-request` naming every member that does not.
 */
export function refuseUnfitRequest(feeder: Feeder, request: SiteRequest): void {
  const faults = [...caseFaults(feeder, request), ...limitFaults(feeder, request)]
  if (faults.length === 0) return
  throw new Refusal('malformed-request', 'The request does not fit the feeder.', { faults })
}

function caseFaults({ header }: Feeder, { caseIds = [] }: SiteRequest): InputFault[] {
  const known = header.cases.map(({ id }) => id)
  return caseIds
    .map((id, index) => ({ id, at: `body.request.caseIds.${index}` }))
    .filter(({ id }) => !known.includes(id))
    .map(({ at }) => ({ at, what: `names no load case of the feeder; it has ${known.join(', ')}` }))
}

/** A limit that the request leaves out is the feeder's own. */
function limitFaults({ header }: Feeder, request: SiteRequest): InputFault[] {
  const lowV = request.lowVolts120 ?? header.limits.lowVolts120
  const highV = request.highVolts120 ?? header.limits.highVolts120
  if (lowV < highV) return []
  const at = request.lowVolts120 === undefined ? 'highVolts120' : 'lowVolts120'
  const what = `the low limit, ${lowV} V, must be below the high limit, ${highV} V`
  return [{ at: `body.request.${at}`, what }]
}
