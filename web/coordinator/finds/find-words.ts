import type { FollowUpStep } from '#domain/avian/account/follow-up.ts'
import type { Incident } from '#domain/feeder/birds.ts'
import { counted } from '../../state/format.ts'

export const STEP_WORDS = {
  visit: 'visit',
  fix: 'fix or interim cover',
  inspection: 'inspection of the fix',
  neighbours: 'look at similar poles nearby',
} as const

/** "golden eagle, confirmed electrocution, at pole S-286". */
export function findInWords({ species, cause, pole, count = 1 }: Incident): string {
  const birds = count > 1 ? `${counted(count, 'bird')}: ` : ''
  const where = pole === undefined ? 'away from any pole' : `at pole ${pole}`
  return `${birds}${species}, ${cause}, ${where}`
}

/** "visit: overdue since 2026-03-04". */
export function stepInWords(step: FollowUpStep): string {
  const { dueOn, doneOn, isProposed } = step
  const name = STEP_WORDS[step.step]
  const by = isProposed ? ', by the days set or assumed' : ''
  switch (step.state) {
    case 'kept':
      return `${name}: done ${doneOn}, due ${dueOn}${by}`
    case 'late':
      return `${name}: done ${doneOn}, late; was due ${dueOn}${by}`
    case 'overdue':
      return `${name}: overdue since ${dueOn}${by}`
    case 'waiting':
      return `${name}: due ${dueOn}${by}`
  }
}
