import type { Actor } from '#contract/actor.ts'
import type { ChangePersonBody, Person } from '#contract/people.ts'
import type { StoredPerson } from '../services/people-ports.ts'
import type { Written } from '../services/ports.ts'
import { Refusal } from '../services/refusal.ts'
import { settleWritten } from '../services/settle-written.ts'
import type { PeoplePorts } from './people-ports.ts'
import { personAsTold } from './person-as-told.ts'

/**
 * Changes name, roles or state. Other roles act from the next request on; closing ends all sessions.
 *
 * @throws Refusal `not-found`, `stale-version` or `wrong-state`
 */
export async function changePerson(
  { store, clock }: Pick<PeoplePorts, 'store' | 'clock'>,
  actor: Actor,
  personId: string,
  { version, name, roles, state }: ChangePersonBody,
): Promise<Person> {
  const missing = `There is no person "${personId}".`
  const current = await store.people.find(personId)
  if (!current) throw new Refusal('not-found', missing)
  // Who began from an older version may ask for what no longer makes sense: that it is older counts.
  const isStale = current.version !== version
  const why = isStale
    ? null
    : await whyNot(current, state, () => store.people.hasPassword(personId))
  if (why !== null) throw new Refusal('wrong-state', why, { current: personAsTold(current) })
  const next = { name, roles: [...new Set(roles)], state }
  const written = await store.people.change(personId, version, next, { actor, at: clock() })
  return settleWritten(asTold(written), {
    missing,
    wrongState: 'This is the last active administrator. Make another one first.',
  })
}

/** Nobody is made active by somebody else: a person is once they have come in by their link. */
async function whyNot(
  { state, isDemo }: StoredPerson,
  next: Person['state'],
  hasPassword: () => Promise<boolean>,
): Promise<string | null> {
  if (isDemo) return 'The people of the demo stay as they are.'
  if (next === state || next === 'closed') return null
  if (state === 'active') return 'The person has accepted already; to keep them out, close them.'
  if (next === 'invited' || (await hasPassword())) return null
  return 'The person becomes active by accepting the invitation.'
}

function asTold(written: Written<StoredPerson>): Written<Person> {
  switch (written.status) {
    case 'missing':
      return written
    case 'written':
      return { ...written, record: personAsTold(written.record) }
    default:
      return { ...written, current: personAsTold(written.current) }
  }
}
