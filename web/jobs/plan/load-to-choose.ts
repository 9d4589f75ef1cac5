import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import type { BypassedCase, JobPlan } from '#domain/jobs/job-plan.ts'
import { counted } from '../../state/format.ts'

/** In which load to bypass the bank, and how long it stays so: one sentence or two. */
export function loadToChoose({ kind, bank, whileBypassed = [] }: JobPlan): string {
  if (bank?.standing && isBypassed(bank.standing)) return BYPASSED_NOW
  const stays = STAYS[kind] ?? ''
  const worse = whileBypassed.filter(
    ({ customersOutside, customersOutsideInService }) =>
      customersOutside > customersOutsideInService,
  )
  if (worse.length === 0) {
    return `The bypass puts no more customers outside the limits in any of these loads.${stays}`
  }
  const best = gentlest(whileBypassed)
  if (!best) return ''
  return `Bypass it at a load like ${best.caseName}, ${whenFewest(best)}.${stays}`
}

function whenFewest({ customersOutside }: BypassedCase): string {
  if (customersOutside === 0) return 'when nobody is outside the limits'
  return `when the fewest are outside the limits: ${counted(customersOutside, 'customer')}`
}

const BYPASSED_NOW =
  'The bank hangs bypassed now, so customers are served so until the work is done.'

const STAYS: Partial<Readonly<Record<JobPlan['kind'], string>>> = {
  'take a bank out of service': ' It stays so until the bank is returned to service.',
  'remove a bank': ' It stays so after the bank is gone.',
}

/** Fewest customers outside, then the highest of the lowest volts. */
function gentlest(cases: readonly BypassedCase[]): BypassedCase | undefined {
  return cases.toSorted(
    (a, b) =>
      a.customersOutside - b.customersOutside ||
      (b.lowest?.volts120 ?? Infinity) - (a.lowest?.volts120 ?? Infinity),
  )[0]
}
