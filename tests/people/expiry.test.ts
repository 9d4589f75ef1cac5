import { randomUUID } from 'node:crypto'
import { getMigrations } from 'better-auth/db/migration'
import { expect, it } from 'vitest'
import { beginSession } from '../../server/people/begin-session.ts'
import { invitePerson } from '../../server/people/invitations.ts'
import { AT_THE_SERVER } from '../../server/people/names.ts'
import { openPeople, type People } from '../../server/people/people.ts'
import { hashOfSecret } from '../../server/people/secrets.ts'
import { makeToken } from '../../server/people/tokens.ts'
import { temporaryStore } from '../store/temporary-store.ts'
import { secretOf } from './staff.ts'

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS
const temporary = temporaryStore()

/** The people of a record on a clock that is set by hand; the sessions begin at the real time. */
async function peopleAt() {
  let aheadMs = 0
  const clock = () => new Date(Date.now() + aheadMs).toISOString()
  const { store } = temporary
  const people = await openPeople({
    store,
    database: { db: store.database.plain, type: store.database.kind },
    secret: 'a secret for this test alone, long enough',
    origin: null,
    isDemo: true,
    signOn: null,
    hasPasskeys: true,
    clock,
    newId: randomUUID,
    reportFault: () => undefined,
  })
  return {
    people,
    pass: (ms: number) => {
      aheadMs += ms
    },
  }
}

async function enter({ ports }: People): Promise<string> {
  const person = await ports.store.people.find('demo-planner')
  if (!person) throw new Error('Expected the planner of the demo.')
  const asking = { headers: new Headers(), address: '127.0.0.1', origin: 'http://localhost' }
  const { cookies } = await beginSession(ports, person, asking)
  return cookies[0]?.split(';')[0] ?? ''
}

const visit = (people: People, cookies: string | null, authorization: string | null = null) =>
  people.visit({ cookies, authorization, actingRole: null })

it('a session ends after 12 hours in which nobody used it', async () => {
  const { people, pass } = await peopleAt()
  const cookie = await enter(people)
  pass(12 * HOUR_MS - 60_000)
  expect(await visit(people, cookie)).not.toBeNull()
  pass(12 * HOUR_MS + 60_000)
  expect(await visit(people, cookie)).toBeNull()
})

it('a session that is used lasts on, its cookie too, but for 30 days at most', async () => {
  const { people, pass } = await peopleAt()
  const cookie = await enter(people)
  for (let halfDays = 1; halfDays < 72; halfDays++) {
    pass(10 * HOUR_MS)
    const found = await visit(people, cookie)
    const isWithin = halfDays * 10 * HOUR_MS < 30 * DAY_MS
    expect(found !== null, `after ${halfDays * 10} h`).toBe(isWithin)
    if (found && 'cookie' in found && halfDays < 70) {
      expect(found.cookie).toMatch(/Max-Age=43200;.*HttpOnly.*SameSite=Lax/)
    }
  }
})

it('a token works until its last day, and is noted as used once a minute at most', async () => {
  const { people, pass } = await peopleAt()
  const body = { name: 'Map', role: 'reader' as const, days: 2 }
  const rights = ['see feeders and solve voltages' as const]
  const { token, secret } = await makeToken(people.ports, AT_THE_SERVER, { ...body, rights })
  const lastUse = async () => (await people.ports.store.tokens.find(token.id))?.lastUsedAt
  const ask = () => visit(people, null, `Bearer ${secret}`)
  expect(await ask()).toMatchObject({ asker: { id: token.id, role: 'reader', only: rights } })
  const first = await lastUse()
  await ask()
  expect(await lastUse()).toBe(first)
  pass(61_000)
  await ask()
  expect(await lastUse()).not.toBe(first)
  pass(2 * DAY_MS)
  expect(await ask()).toBeNull()
})

it('an invitation is not accepted after a week', async () => {
  const { people, pass } = await peopleAt()
  const newcomer = { name: 'Kim', email: 'kim@utility.example', roles: ['crew'] as const }
  const { link } = await invitePerson(people.ports, AT_THE_SERVER, newcomer, 'http://localhost')
  pass(7 * DAY_MS + 1000)
  const hash = hashOfSecret(secretOf(link))
  const given = { name: 'Kim', email: newcomer.email, passwordHash: 'none' }
  expect(await people.ports.store.people.accept(hash, given, people.ports.clock())).toBeNull()
})

it('the tables hold all that the library of sign-in asks for', async () => {
  const { people } = await peopleAt()
  const { toBeAdded, toBeCreated } = await getMigrations(people.ports.auth.options)
  expect({ toBeAdded, toBeCreated }).toEqual({ toBeAdded: [], toBeCreated: [] })
})

it('secrets of invitations and tokens are kept as hashes alone', async () => {
  const { people } = await peopleAt()
  const newcomer = { name: 'Lee', email: 'lee@utility.example', roles: ['crew'] as const }
  const { link } = await invitePerson(people.ports, AT_THE_SERVER, newcomer, 'http://localhost')
  const rights = ['see feeders and solve voltages' as const]
  const wanted = { name: 'Map', role: 'reader' as const, rights, days: 2 }
  const { secret } = await makeToken(people.ports, AT_THE_SERVER, wanted)
  expect(secret).toMatch(/^crossarm_[\w-]{43}$/)
  const { query } = temporary.store.database
  const rows = [
    ...(await query.selectFrom('invitations').selectAll().execute()),
    ...(await query.selectFrom('tokens').selectAll().execute()),
    ...(await query.selectFrom('history').selectAll().execute()),
  ]
  const text = JSON.stringify(rows)
  for (const plain of [secretOf(link), secret, secret.slice('crossarm_'.length)]) {
    expect(text).not.toContain(plain)
  }
})
