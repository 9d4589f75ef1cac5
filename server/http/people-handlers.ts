import { changePerson } from '../people/change-person.ts'
import { invitePerson, renewInvitation } from '../people/invitations.ts'
import { namesById } from '../people/names.ts'
import type { People } from '../people/people.ts'
import { personAsTold } from '../people/person-as-told.ts'
import { makeToken, revokeToken } from '../people/tokens.ts'
import { actorOf } from '../services/actor-of.ts'
import { askingOf } from './asking-of.ts'
import type { Handlers } from './handlers.ts'

type PeopleRoutes =
  | 'listNames'
  | 'listPeople'
  | 'invitePerson'
  | 'renewInvitation'
  | 'changePerson'
  | 'listTokens'
  | 'makeToken'
  | 'revokeToken'

export function peopleHandlers({ ports, origin }: People): Pick<Handlers, PeopleRoutes> {
  const { store } = ports
  return {
    listNames: async () => ({ names: await namesById(store) }),
    listPeople: async () => (await store.people.list()).map(personAsTold),
    invitePerson: ({ body }, asker, context) =>
      invitePerson(ports, actorOf(asker), body, askingOf(context, origin).origin),
    renewInvitation: ({ params }, asker, context) =>
      renewInvitation(ports, actorOf(asker), params.personId, askingOf(context, origin).origin),
    changePerson: ({ params, body }, asker) =>
      changePerson(ports, actorOf(asker), params.personId, body),
    listTokens: () => store.tokens.list(),
    makeToken: ({ body }, asker) => makeToken(ports, actorOf(asker), body),
    revokeToken: ({ params }, asker) => revokeToken(ports, actorOf(asker), params.tokenId),
  }
}
