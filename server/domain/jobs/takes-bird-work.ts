import type { JobKind } from './job-kind.ts'

/** Somebody is up there with a truck and time anyway (common practice, no source). */
const WITH_BIRD_WORK: readonly JobKind[] = [
  'set a bank',
  'change out a bank',
  'remove a bank',
  'take a bank out of service',
  'return a bank to service',
  'retrofit round',
]

/** Whether open pairs of the poles are closed on the same visit where nobody says otherwise. */
export function takesBirdWork(kind: JobKind): boolean {
  return WITH_BIRD_WORK.includes(kind)
}
