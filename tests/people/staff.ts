import { ACTING_ROLE_HEADER, type Role } from '#contract/actor.ts'
import { buildRequest } from '#contract/build-request.ts'
import type { Person } from '#contract/people.ts'
import type { Route, RouteInput } from '#contract/route.ts'
import { routes } from '#contract/routes.ts'
import type { ServerOptions } from '../../server/main.ts'
import { startTestServer, type TestServer } from '../http/test-server.ts'

export const PASSWORD = 'a long enough password'

export type Headers = Readonly<Record<string, string>>

/** A server of a utility, without the demo, and its first administrator. */
export interface StaffedServer extends TestServer {
  readonly administrator: Headers
  /** Invites a person and accepts for them; gives the headers of their session. */
  hire(email: string, roles: readonly Role[]): Promise<{ person: Person; headers: Headers }>
  /** Sends the input of a route as it is, and gives the whole answer. */
  send<R extends Route>(route: R, input: RouteInput<R>, headers?: Headers): Promise<Response>
}

export async function startStaffedServer(options: ServerOptions = {}): Promise<StaffedServer> {
  const server = await startTestServer({ isDemo: false, ...options })
  const send: StaffedServer['send'] = (route, input, headers = {}) => {
    const { path, ...request } = buildRequest(route, input, headers)
    return fetch(server.address + path, { ...request, redirect: 'manual' })
  }
  const accept = async (link: string, name: string, email?: string): Promise<Headers> => {
    const body = { token: secretOf(link), name, password: PASSWORD, ...(email && { email }) }
    const answer = await send(routes.acceptInvitation, { body })
    if (!answer.ok) throw new Error(`Not accepted: ${await answer.text()}`)
    return { cookie: cookiesOf(answer) }
  }
  const administrator = await accept(server.firstLink ?? '', 'Alex', 'alex@utility.example')
  return {
    ...server,
    send,
    administrator,
    hire: async (email, roles) => {
      const body = { name: email.split('@')[0] ?? '', email, roles: [...roles] }
      const { link, person } = await server.call(routes.invitePerson, { body }, administrator)
      const headers = await accept(link, person.name)
      const me = await server.call(routes.listPeople, {}, administrator)
      return { person: me.find(({ id }) => id === person.id) ?? person, headers }
    },
  }
}

/** Headers of one person for each role. */
export async function hireOneOfEach(server: StaffedServer): Promise<Record<Role, Headers>> {
  const hire = async (role: Role): Promise<Headers> => {
    const { headers } = await server.hire(`${role}@utility.example`, [role])
    return { ...headers, [ACTING_ROLE_HEADER]: role }
  }
  return {
    planner: await hire('planner'),
    coordinator: await hire('coordinator'),
    crew: await hire('crew'),
    supervisor: await hire('supervisor'),
    reader: await hire('reader'),
    administrator: await hire('administrator'),
  }
}

export function secretOf(link: string): string {
  return new URL(link).hash.slice(1)
}

/** What a browser would send back. */
export function cookiesOf(answer: Response): string {
  const pairs = answer.headers.getSetCookie().map((cookie) => cookie.split(';')[0] ?? '')
  return pairs.filter((pair) => !pair.endsWith('=')).join('; ')
}
