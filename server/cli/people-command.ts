import { resolve } from 'node:path'
import { Email, PersonName } from '#contract/account.ts'
import { ROLES, Role } from '#contract/actor.ts'
import type { PeopleAtServer } from '../people/people-at-server.ts'
import { Refusal } from '../services/refusal.ts'
import { type Command, type Streams, UsageError } from './command.ts'
import { readParts } from './read-arguments.ts'
import { left, textTable } from './text-table.ts'

const HELP = `Usage: crossarm people add --name <name> --email <email> --role <role> [--role <role>]
       crossarm people list
       crossarm people close <email>

Whoever may run this at the server manages its people without signing in. A server may go on
running meanwhile.

  add    invites a person and prints the link by which they set their password, good for 7 days and
         for once; who is known already gets a new link, as after a lost password
  list   tells name, email, roles and state of everybody
  close  keeps a person out from now on; what they did stays under their name

  --role <role>    ${ROLES.join(', ')}
  --data <folder>  folder of the database; without it CROSSARM_DATA, or data.
                   The database is the one of DATABASE_URL where that is set.

The link leads to CROSSARM_ORIGIN where that is set, otherwise to HOST and PORT.

Exit code: 0 done; 1 it cannot be done, as closing the last administrator; 2 bad usage.`

const OPTIONS = {
  name: { type: 'string' },
  email: { type: 'string' },
  role: { type: 'string', multiple: true },
  data: { type: 'string' },
} as const

type Act = (people: PeopleAtServer, streams: Streams) => Promise<void>

export const peopleCommand: Command = {
  name: 'people',
  summary: 'invite, list and close the people of the server',
  help: HELP,
  async run(args, streams, tools) {
    const { values, positionals } = readParts(args, OPTIONS)
    const act = actOf(positionals, values)
    const { data } = values
    const env = { ...process.env, ...(data !== undefined && { CROSSARM_DATA: resolve(data) }) }
    try {
      await tools.withPeople(env, (people) => act(people, streams))
      return 0
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      streams.err(`crossarm people: error: ${error.message}`)
      return 1
    }
  },
}

interface Values {
  readonly name?: string
  readonly email?: string
  readonly role?: string[]
}

function actOf([verb, ...rest]: readonly string[], values: Values): Act {
  const [email, extra] = rest
  if (verb === 'list' && rest.length === 0) return list
  if (verb === 'add' && rest.length === 0) return addingOf(values)
  if (verb === 'close' && email !== undefined && extra === undefined) return closingOf(email)
  throw new UsageError('Say add, list, or close with one email.')
}

function addingOf({ name, email, role }: Values): Act {
  const newcomer = {
    name: suitable('name', PersonName, name),
    email: suitable('email', Email, email),
    roles: (role ?? [undefined]).map((each) => suitable('role', Role, each)),
  }
  return async (people, { out }) => {
    const { person, link, endsAt, isKnown } = await people.add(newcomer)
    const what = isKnown
      ? 'was known already; name and roles stay. A new link'
      : 'is invited. The link'
    out(`${person.name} ${what} works once, until ${endsAt}:`)
    out(link)
  }
}

function suitable<Value>(
  option: string,
  schema: { safeParse(text: unknown): { success: boolean; data?: Value } },
  text: string | undefined,
): Value {
  const { success, data } = schema.safeParse(text)
  if (success && data !== undefined) return data
  throw new UsageError(
    text === undefined ? `Give --${option}.` : `--${option} cannot be "${text}".`,
  )
}

function closingOf(email: string): Act {
  return async (people, { out }) => {
    const { name } = await people.close(email)
    out(`${name} is closed.`)
  }
}

async function list(people: PeopleAtServer, { out }: Streams): Promise<void> {
  const rows = (await people.list()).map(({ name, email, roles, state }) => [
    name,
    email,
    roles.join(', '),
    state,
  ])
  out(textTable([left('name'), left('email'), left('roles'), left('state')], rows))
}
