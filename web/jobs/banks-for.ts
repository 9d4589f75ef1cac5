import type { Regulator } from '#domain/feeder/equipment.ts'
import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import { listed } from '../state/format.ts'

/** How a bank has to stand for a kind of work; left out: either way. */
const STANDS: Partial<Readonly<Record<JobKind, 'in service' | 'bypassed'>>> = {
  'take a bank out of service': 'in service',
  'return a bank to service': 'bypassed',
  'change settings': 'in service',
}

/** Banks that stand so that the work can be done at them. */
export function banksFor(kind: JobKind, regulators: readonly Regulator[]): readonly Regulator[] {
  const stands = STANDS[kind]
  if (stands === undefined) return regulators
  return regulators.filter((bank) => isBypassed(bank) === (stands === 'bypassed'))
}

/** Why no bank is offered for a kind of work, and what to do. */
export function whyNoBank(kind: JobKind, regulators: readonly Regulator[]): string {
  if (regulators.length === 0) return 'No regulator bank stands on this feeder.'
  switch (kind) {
    case 'take a bank out of service':
      return 'Every bank on this feeder is out of service already, with its bypass closed.'
    case 'return a bank to service':
      return 'Every bank on this feeder is in service, so there is none to return.'
    default:
      return 'Every bank on this feeder is out of service: settings are given when it is returned to service.'
  }
}

/** Which banks are not offered, and why; null where all are. */
export function whyNotOffered(kind: JobKind, regulators: readonly Regulator[]): string | null {
  const offered = new Set(banksFor(kind, regulators))
  const others = regulators.filter((bank) => !offered.has(bank)).map(({ pole }) => `pole ${pole}`)
  if (others.length === 0 || offered.size === 0) return null
  return `Not offered, since ${WHY_NOT[kind] ?? 'it stands otherwise'}: ${listed(others)}.`
}

const WHY_NOT: Partial<Readonly<Record<JobKind, string>>> = {
  'take a bank out of service': 'it is out of service already',
  'return a bank to service': 'it is in service',
  'change settings': 'it is out of service and gets its settings when it is returned',
}
