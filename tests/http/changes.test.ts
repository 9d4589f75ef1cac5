import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import pg from 'pg'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import type { Actor } from '#contract/actor.ts'
import { routes } from '#contract/routes.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { type OpenStore, openStore } from '../../server/store/open-store.ts'
import { enterDemo } from '../support/enter-demo.ts'
import { type Following, followChanges } from '../support/follow-changes.ts'
import { type FreshDatabase, freshDatabase, TESTED_KIND } from '../support/fresh-database.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import {
  COORDINATOR,
  CREW,
  PLANNER,
  READER,
  SMALL,
  startTestServer,
  type TestServer,
} from './test-server.ts'

let folder: string
let fresh: FreshDatabase
let server: TestServer
const following: Following[] = []

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'crossarm-changes-'))
  fresh = await freshDatabase()
  server = await startTestServer(placeOf(join(folder, 'data')))
})
afterEach(() => {
  for (const stream of following.splice(0)) stream.leave()
})
afterAll(async () => {
  await server.stop()
  await fresh.drop()
  await rm(folder, { recursive: true, force: true })
})

function placeOf(dataFolder: string) {
  const { databaseUrl } = fresh
  return { dataFolder, ...(databaseUrl && { databaseUrl }) }
}

async function follow(as: Actor, at = server, query = '', lastEventId?: string) {
  const headers = await at.headersOf(as)
  const stream = await followChanges(
    at.address,
    { ...headers, ...(lastEventId !== undefined && { 'last-event-id': lastEventId }) },
    query,
  )
  following.push(stream)
  return stream
}

function cover(at = server, pole = 'P3') {
  const body = {
    pole,
    kind: 'cover',
    what: 'bushing cover',
    state: 'on',
    on: '2026-05-01',
  } as const
  return at.call(routes.addProtection, { params: { feederId: SMALL }, body }, COORDINATOR)
}

describe('who follows the changes', () => {
  it('is told of what others do, as soon as it is kept', async () => {
    const stream = await follow(PLANNER)
    const { id } = await cover()
    const [change] = await stream.changes(1)
    expect(change?.data).toMatchObject({
      subject: 'protection',
      feederId: SMALL,
      subjectId: id,
      version: 1,
      what: 'added',
    })
    expect(change?.id).toBe(String(change?.data.seq))
    expect(change?.data.actorId).toBe(COORDINATOR.id)
  })

  it('goes on after a broken line where it broke, with nothing left out or told twice', async () => {
    const whole = await follow(CREW)
    const broken = await follow(CREW)
    await cover()
    const [first] = await broken.changes(1)
    broken.leave()
    await cover()
    await cover()
    const again = await follow(CREW, server, '', first?.id)
    await cover()
    const seqs = (changes: readonly { data: { seq: number } }[]) =>
      changes.map(({ data }) => data.seq)
    const resumed = [...seqs([first!]), ...seqs(await again.changes(3))]
    expect(resumed).toEqual(seqs(await whole.changes(4)))
  })

  it('can go on from where it stood although nothing had changed before the line broke', async () => {
    const quiet = await follow(CREW)
    const [here] = quiet.events
    quiet.leave()
    const { id } = await cover()
    const again = await follow(CREW, server, '', here?.id)
    expect((await again.changes(1)).map(({ data }) => data.subjectId)).toEqual([id])
  })

  it('gets all since a number, page by page, and then what is new', async () => {
    const [here] = (await follow(PLANNER)).events
    const from = Number(here?.id)
    await takeInWithCovers(450)
    const late = await follow(PLANNER, server, `?after=${from}`)
    await late.changes(451)
    await cover()
    const seqs = (await late.changes(452)).map(({ data }) => data.seq)
    expect(seqs).toEqual(Array.from({ length: 452 }, (_, index) => from + 1 + index))
  })

  it('starts from now where the number is of another database', async () => {
    const stream = await follow(CREW, server, '', '900000000')
    const { id } = await cover()
    expect((await stream.changes(1)).map(({ data }) => data.subjectId)).toEqual([id])
  })

  it('is refused a place in the stream that is no number', async () => {
    const headers = { ...(await server.headersOf(CREW)), 'last-event-id': 'yesterday' }
    const answer = await fetch(`${server.address}/api/changes`, { headers })
    expect(answer.status).toBe(400)
    expect(await answer.json()).toMatchObject({ code: 'malformed-request' })
  })

  it('must be signed in', async () => {
    const answer = await fetch(`${server.address}/api/changes`)
    expect(await answer.json()).toMatchObject({ status: 401, code: 'sign-in-needed' })
  })
})

describe('what a follower is told', () => {
  it('is without who it was, for a reader', async () => {
    const streams = await Promise.all([READER, CREW].map((as) => follow(as)))
    const { id } = await cover()
    const [[reader], [crew]] = await Promise.all([streams[0]!.changes(1), streams[1]!.changes(1)])
    expect(reader?.data).toMatchObject({ subjectId: id, actorId: null })
    expect(crew?.data).toMatchObject({ subjectId: id, actorId: COORDINATOR.id })
  })

  it('is nothing of who else follows or comes in', async () => {
    const stream = await follow(CREW)
    const other = await follow(READER)
    other.leave()
    await enterDemo(server.address, 'planner')
    const { id } = await cover()
    expect((await stream.changes(1)).map(({ data }) => data.subjectId)).toEqual([id])
  })
})

describe('many followers', () => {
  it('are all told', async () => {
    const crowd = await Promise.all(Array.from({ length: 40 }, () => follow(CREW)))
    const made = [await cover(), await cover()]
    for (const stream of crowd) {
      const told = (await stream.changes(2)).map(({ data }) => data.subjectId)
      expect(told).toEqual(made.map(({ id }) => id))
    }
  })
})

describe('changes that another process makes', () => {
  it('are told too', async () => {
    const stream = await follow(PLANNER)
    const { store, close } = await openBeside()
    const id = await writeBeside(store)
    expect((await stream.changes(1)).map(({ data }) => data.subjectId)).toEqual([id])
    await close()
  })
})

describe.runIf(TESTED_KIND === 'PostgreSQL')('several servers of one database', () => {
  it('tell their followers of what is done on the others', async () => {
    const other = await startTestServer(placeOf(join(folder, 'other')))
    const [here, there] = [await follow(CREW), await follow(CREW, other)]
    const made = [await cover(server), await cover(other)].map(({ id }) => id)
    for (const stream of [here, there]) {
      expect((await stream.changes(2)).map(({ data }) => data.subjectId)).toEqual(made)
    }
    here.leave()
    there.leave()
    await other.stop()
  })

  it('tell what was done while they could not hear, once they hear again', async () => {
    const stream = await follow(CREW)
    const client = new pg.Client({ connectionString: fresh.databaseUrl })
    await client.connect()
    const cutOff = () =>
      client.query(
        `select pg_terminate_backend(pid) from pg_stat_activity
         where datname = current_database() and application_name = 'crossarm listener'`,
      )
    const made: string[] = []
    for (let round = 0; round < 3; round++) {
      expect((await cutOff()).rowCount).toBeGreaterThan(0)
      made.push((await cover()).id, (await cover()).id)
      const told = await stream.changes(made.length)
      expect(told.map(({ data }) => data.subjectId)).toEqual(made)
    }
    await client.end()
  })
})

describe('a server that stops', () => {
  it('ends the streams of its followers', async () => {
    const other = await startTestServer()
    const stream = await followChanges(other.address, await other.headersOf(CREW))
    await other.stop()
    await stream.ended
    expect(stream.events.map(({ event }) => event)).toEqual(['here'])
  })
})

/** As a command on the same database would open it, while the server runs. */
async function openBeside(): Promise<{ store: OpenStore; close: () => Promise<void> }> {
  const store = await openStore(placeOf(join(folder, 'data')))
  return { store, close: () => store.close() }
}

async function writeBeside(store: OpenStore): Promise<string> {
  const actor = { id: 'machine', role: 'coordinator' } as const
  const body = { pole: 'P4', kind: 'cover', what: 'cap', state: 'on', on: '2026-05-01' } as const
  const stamp = { actor, at: new Date().toISOString() }
  const { id } = await store.protections.add(SMALL, `beside-${crypto.randomUUID()}`, body, stamp)
  return id
}

/** One change for the feeder and one for each cover, all in one write. */
async function takeInWithCovers(count: number): Promise<void> {
  const protections = Array.from({ length: count }, (_, index) => ({
    ...{ id: `cap-${index}`, pole: 'P4', kind: 'cover', what: 'cap' },
    ...{ state: 'on', on: '2026-05-01' },
  })) as Feeder['protections']
  const layers = layersOfFeeder({ ...smallFeeder({ id: 'many-covers' }), protections })
  await server.call(routes.takeInFeeder, { body: { layers } }, PLANNER)
}
