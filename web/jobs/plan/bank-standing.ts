import type { Regulator } from '#domain/feeder/equipment.ts'
import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import type { BankWork } from '#domain/jobs/job-plan.ts'

export interface BankStanding {
  /** Null where no bank stands. */
  readonly before: Regulator | null
  readonly after: Regulator | null
}

/** The bank as it stands before a job and as it is to stand after it. */
export function bankStanding(kind: JobKind, { regulator, standing }: BankWork): BankStanding {
  // Plans from before jobs recorded it hold no standing bank where nothing of it changes.
  const before = kind === 'set a bank' ? (standing ?? null) : (standing ?? regulator)
  switch (kind) {
    case 'remove a bank':
      return { before, after: null }
    case 'take a bank out of service':
      return { before, after: { ...regulator, state: 'bypassed' } }
    default:
      return { before, after: regulator }
  }
}

/** "in service", "out of service, bypassed": in the middle of a sentence. */
export function standingInWords(bank: Regulator | null): string {
  if (!bank) return 'no bank'
  return isBypassed(bank)
    ? 'out of service: the units hang off the line and closed bypasses carry it'
    : 'in service'
}

/** Whether two drawings of it would look the same. */
export function isDrawnAlike(one: Regulator, other: Regulator): boolean {
  return (
    one.phases === other.phases &&
    isBypassed(one) === isBypassed(other) &&
    (one.neutralSide === 'switched') === (other.neutralSide === 'switched')
  )
}
