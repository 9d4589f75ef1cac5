import type { InputFault } from '#contract/problem.ts'
import type { SaveProposalBody } from '#contract/proposals.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { Refusal } from './refusal.ts'

type Proposal = SaveProposalBody['proposal']

/**
 * Refuses a proposal that stands where the feeder has no pole or no span.
 *
 * @throws Refusal `malformed-request` naming each.
 */
export function refuseUnknownPlaces(feeder: Feeder, proposal: Proposal): void {
  const faults = faultsOf(feeder, proposal)
  if (faults.length === 0) return
  const detail = `Feeder "${feeder.header.id}" does not have all poles and spans of the proposal. Run the study again on the feeder as it is now.`
  throw new Refusal('malformed-request', detail, { faults })
}

function faultsOf(feeder: Feeder, { banks, nearAlternatives }: Proposal): InputFault[] {
  const poles = new Set(feeder.poles.map(({ id }) => id))
  const spans = new Set(feeder.spans.map(({ id }) => id))
  const at = 'body.proposal'
  return [
    ...banks.flatMap(({ pole, span }, index) => [
      ...poleFaults(poles, pole, `${at}.banks.${index}.pole`),
      ...(spans.has(span)
        ? []
        : [{ at: `${at}.banks.${index}.span`, what: 'names no span of the feeder' }]),
    ]),
    ...nearAlternatives.flatMap((pole, index) =>
      poleFaults(poles, pole, `${at}.nearAlternatives.${index}`),
    ),
  ]
}

function poleFaults(poles: ReadonlySet<string>, pole: string, at: string): InputFault[] {
  return poles.has(pole) ? [] : [{ at, what: 'names no pole of the feeder' }]
}
