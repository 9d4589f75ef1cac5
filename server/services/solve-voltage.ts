import type { CaseSolution } from '#contract/case-solution.ts'
import type { InputFault } from '#contract/problem.ts'
import type { VoltageAnswer, VoltageBody } from '#contract/voltage.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import { includesPhases } from '#domain/units/phases.ts'
import { findFeeder } from './find-feeder.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'

/**
 * Voltages of one or all load cases, with banks on trial. Not converging is an answer, not a refusal.
 *
 * @throws Refusal `not-found`, or `malformed-request` naming what the feeder does not have.
 */
export async function solveVoltage(
  { store, threads }: Pick<Ports, 'store' | 'threads'>,
  feederId: string,
  { caseId, taps, extraBanks, fixedTaps }: VoltageBody,
): Promise<VoltageAnswer> {
  const { feeder } = await findFeeder(store, feederId)
  refuseUnknown(feeder, { caseId, extraBanks, fixedTaps })
  const caseIds = caseId === undefined ? undefined : [caseId]
  const solutions = await threads.solve(feeder, { caseIds, taps, extraBanks, fixedTaps })
  return { solutions: solutions as CaseSolution[] }
}

type Wanted = Pick<VoltageBody, 'caseId' | 'extraBanks' | 'fixedTaps'>

function refuseUnknown(feeder: Feeder, { caseId, extraBanks = [], fixedTaps = {} }: Wanted): void {
  const standing = feeder.equipment.filter((item) => item.kind === 'regulator')
  const banks = new Map([...standing, ...extraBanks].map((bank) => [bank.id, bank]))
  const faults = [
    ...caseFaults(feeder, caseId),
    ...extraBanks.flatMap((bank, index) => bankFaults(feeder, bank, `body.extraBanks.${index}`)),
    ...repeatFaults(extraBanks),
    ...Object.keys(fixedTaps).flatMap((id) => tapFaults(banks.get(id), `body.fixedTaps.${id}`)),
  ]
  if (faults.length === 0) return
  throw new Refusal('malformed-request', 'The request names what the feeder does not have.', {
    faults,
  })
}

function caseFaults({ header }: Feeder, caseId: string | undefined): InputFault[] {
  if (caseId === undefined || header.cases.some(({ id }) => id === caseId)) return []
  const known = header.cases.map(({ id }) => id).join(', ')
  return [{ at: 'body.caseId', what: `names no load case of the feeder; it has ${known}` }]
}

function tapFaults(bank: Regulator | undefined, at: string): InputFault[] {
  if (!bank) return [{ at, what: 'names no regulator of the feeder' }]
  return isBypassed(bank)
    ? [{ at, what: 'names a bank that stands bypassed: no tap of it acts' }]
    : []
}

function repeatFaults(banks: readonly Regulator[]): InputFault[] {
  return banks.flatMap(({ id }, index) =>
    banks.findIndex((other) => other.id === id) === index
      ? []
      : [{ at: `body.extraBanks.${index}.id`, what: 'is the id of another bank of the request' }],
  )
}

function bankFaults(feeder: Feeder, bank: Regulator, at: string): InputFault[] {
  const span = feeder.spans.find(({ id }) => id === bank.span)
  if (!span) return [{ at: `${at}.span`, what: 'names no span of the feeder' }]
  const faults: InputFault[] = []
  if (feeder.equipment.some(({ id }) => id === bank.id)) {
    faults.push({ at: `${at}.id`, what: 'is the id of equipment that stands already' })
  }
  if (span.from !== bank.pole) {
    faults.push({ at: `${at}.pole`, what: `must be the near end of the span, pole ${span.from}` })
  }
  if (!includesPhases(span.phases, bank.phases)) {
    faults.push({ at: `${at}.phases`, what: `must be among the span's phases, ${span.phases}` })
  }
  if (isBypassed(bank)) {
    faults.push({
      at: `${at}.state`,
      what: 'must be in service, since a bypassed bank does nothing',
    })
  }
  return faults
}
