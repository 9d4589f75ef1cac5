import { PHASES, phaseMask } from '#domain/units/phases.ts'
import { volts120OfPu } from '#domain/units/voltage-base.ts'
import type { Regulator } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import { isBypassed } from '../feeder/is-bypassed.ts'
import type { FeederTrace } from '../network/trace-feeder.ts'
import { polesBeyond } from './beyond-span.ts'
import { type CaseLimits, type FeederLimits, feederLimits } from './feeder-limits.ts'
import { feederWithBank } from './feeder-with-bank.ts'
import type { JobKind } from './job-kind.ts'
import type { BankWork, BypassedCase } from './job-plan.ts'

export interface WhileBypassed {
  readonly cases: BypassedCase[]
  /** Why a case is missing, in sentences. */
  readonly notes: string[]
}

/** Whether the line runs past the units during the work, or did so before it. */
export function isBypassedDuring(kind: JobKind, { standing }: Pick<BankWork, 'standing'>): boolean {
  const isBypassing =
    kind === 'change out a bank' ||
    kind === 'remove a bank' ||
    kind === 'take a bank out of service' ||
    kind === 'return a bank to service'
  return isBypassing || (standing !== undefined && isBypassed(standing))
}

/**
 * What the bypass does to the customers of the whole feeder in each case, against the bank in
 * service: as it stands, or as it is to stand where it hangs bypassed now.
 */
export function whileBypassed(feeder: Feeder, trace: FeederTrace, bank: BankWork): WhileBypassed {
  const { regulator, standing } = bank
  const inService = standing && !isBypassed(standing) ? standing : regulator
  const ids = [regulator.id, ...(standing ? [standing.id] : [])]
  const limitsWith = (set: Regulator) => feederLimits(feederWithBank(feeder, set, ids))
  const past = limitsWith({ ...inService, state: 'bypassed' })
  const through = limitsWith(inService)
  // Where the feeder has errors the readings to expect say so already.
  if (!past || !through) return { cases: [], notes: [] }
  const poles = polesBeyond(trace, inService.span)
  const cases: BypassedCase[] = []
  const notes: string[] = []
  for (const { id, name } of feeder.header.cases) {
    const [bypassed, served] = [past.cases.get(id), through.cases.get(id)]
    if (!bypassed || !served) {
      notes.push(`With the bank ${bypassed ? 'in service' : 'bypassed'} ${name} cannot be solved.`)
      continue
    }
    cases.push({
      caseId: id,
      caseName: name,
      customersOutside: bypassed.customersOutside,
      customersOutsideInService: served.customersOutside,
      lowest: lowestOf(past, bypassed, poles, inService),
    })
  }
  return { cases, notes }
}

/** Among the poles beyond, on the phases that the bank has. */
function lowestOf(
  { network }: FeederLimits,
  { pu }: CaseLimits,
  poles: ReadonlySet<string>,
  { phases }: Regulator,
): BypassedCase['lowest'] {
  const own = phaseMask(phases)
  let lowest: BypassedCase['lowest'] = null
  for (const [node, pole] of network.nodeIds.entries()) {
    if (!poles.has(pole)) continue
    for (const [index, phase] of PHASES.entries()) {
      if ((((network.mask[node] ?? 0) & own) >> index) % 2 === 0) continue
      const volts120 = volts120OfPu(pu[node * 3 + index] ?? Number.NaN)
      if (!lowest || volts120 < lowest.volts120) lowest = { pole, phase, volts120 }
    }
  }
  return lowest
}
