import type { Role } from '#contract/actor.ts'
import type { Invited, Person } from '#contract/people.ts'
import { Refusal } from '../services/refusal.ts'
import { changePerson } from './change-person.ts'
import { FIRST_EMAIL } from './first-administrator.ts'
import { type InvitingPorts, invitePerson, renewInvitation } from './invitations.ts'
import { AT_THE_SERVER } from './names.ts'
import { personAsTold } from './person-as-told.ts'

const FIRST_LINK_MS = 3_600_000

export interface Newcomer {
  readonly name: string
  readonly email: string
  readonly roles: readonly Role[]
}

/** What whoever may run commands at the server can do with people, without signing in. */
export interface PeopleAtServer {
  /** Closed ones too. */
  list(): Promise<Person[]>
  /** Who is known already keeps name and roles, and gets a new link. */
  add(newcomer: Newcomer): Promise<Invited & { readonly isKnown: boolean }>
  /** @throws Refusal `not-found` or `wrong-state` */
  close(email: string): Promise<Person>
  /** A link for the first administrator, good for an hour; null where there is one. */
  inviteFirstAdministrator(): Promise<Invited | null>
}

/** @param origin as people reach the server, for the links */
export function peopleAtServer(ports: InvitingPorts, origin: string): PeopleAtServer {
  const { people } = ports.store
  return {
    list: async () => (await people.list()).map(personAsTold),

    add: async (newcomer) => {
      const known = await people.findByEmail(newcomer.email)
      const invited = known
        ? await renewInvitation(ports, AT_THE_SERVER, known.id, origin)
        : await invitePerson(ports, AT_THE_SERVER, newcomer, origin)
      return { ...invited, isKnown: known !== null }
    },

    close: async (email) => {
      const person = await people.findByEmail(email)
      if (!person) throw new Refusal('not-found', `Nobody has the email "${email}".`)
      return changePerson(ports, AT_THE_SERVER, person.id, { ...person, state: 'closed' })
    },

    inviteFirstAdministrator: async () => {
      if ((await people.countAdministrators()) > 0) return null
      const waiting = await people.findByEmail(FIRST_EMAIL)
      if (waiting) {
        return renewInvitation(ports, AT_THE_SERVER, waiting.id, origin, FIRST_LINK_MS)
      }
      const first = { name: 'Administrator', email: FIRST_EMAIL, roles: ['administrator'] as const }
      return invitePerson(ports, AT_THE_SERVER, first, origin, FIRST_LINK_MS)
    },
  }
}
