import { namesById } from '../people/names.ts'
import type { People } from '../people/people.ts'
import type { Handlers } from './handlers.ts'

type PeopleRoutes = 'listNames'

export function peopleHandlers({ ports }: People): Pick<Handlers, PeopleRoutes> {
  return {
    listNames: async () => ({ names: await namesById(ports.store) }),
  }
}
