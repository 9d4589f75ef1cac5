import { buildRequest } from '#contract/build-request.ts'
import { routes } from '#contract/routes.ts'
import { openPeopleAtServer } from '../../server/main.ts'
import { cookiesOf } from '../people/staff.ts'

const ADMINISTRATOR = {
  name: 'Alex Admin',
  email: 'alex@utility.example',
  roles: ['administrator'],
} as const

export interface Administrator {
  readonly id: string
  readonly headers: Readonly<Record<string, string>>
}

/** Adds an administrator as a command at the server would, and lets them in by their link. */
export async function enterAdministrator(
  address: string,
  place: { readonly dataFolder: string; readonly databaseUrl?: string },
): Promise<Administrator> {
  const { people, close } = await openPeopleAtServer({
    CROSSARM_DATA: place.dataFolder,
    ...(place.databaseUrl && { DATABASE_URL: place.databaseUrl }),
  })
  const { person, link } = await people.add(ADMINISTRATOR)
  await close()
  const body = {
    token: new URL(link).hash.slice(1),
    name: ADMINISTRATOR.name,
    password: 'four words and a crossarm',
  }
  const { path, ...request } = buildRequest(routes.acceptInvitation, { body })
  const answer = await fetch(address + path, request)
  if (!answer.ok) throw new Error(`Expected to be let in, got: ${await answer.text()}`)
  return { id: person.id, headers: { cookie: cookiesOf(answer) } }
}
