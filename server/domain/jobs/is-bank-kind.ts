import type { JobKind } from './job-kind.ts'

const NEEDS_BANK: readonly JobKind[] = [
  'set a bank',
  'change out a bank',
  'remove a bank',
  'take a bank out of service',
  'return a bank to service',
  'change settings',
]

/** Whether there is no such job without a bank. */
export function isBankKind(kind: JobKind): boolean {
  return NEEDS_BANK.includes(kind)
}

/** Whether the controls of the bank work at its end, and so have settings that are theirs. */
export function leavesInService(kind: JobKind): boolean {
  return setsUnits(kind) || kind === 'return a bank to service' || kind === 'change settings'
}

/** Whether units are brought up or down. */
export function handlesUnits(kind: JobKind): boolean {
  return setsUnits(kind) || kind === 'remove a bank'
}

/** Whether units hang in service at its end that were not there before. */
export function setsUnits(kind: JobKind): boolean {
  return kind === 'set a bank' || kind === 'change out a bank'
}
