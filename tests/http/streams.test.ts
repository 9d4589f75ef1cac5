import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { type Kysely, sql } from 'kysely'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { openStore } from '../../server/store/open-store.ts'
import type { Tables } from '../../server/store/tables.ts'
import { cookiesOf, PASSWORD, type StaffedServer, startStaffedServer } from '../people/staff.ts'
import { followChanges } from '../support/follow-changes.ts'
import { type FreshDatabase, freshDatabase, TESTED_KIND } from '../support/fresh-database.ts'
import { openRaw, requestHead } from './raw-connection.ts'

/** In place of 15 s. */
const BEAT_MS = 60

/** Notices of about 300 bytes: more than the buffers of a connection on one machine take in. */
const OLD_ENTRIES = 60_000

let folder: string
let fresh: FreshDatabase
let server: StaffedServer
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'crossarm-streams-'))
  fresh = await freshDatabase()
  const { databaseUrl } = fresh
  const place = { dataFolder: join(folder, 'data'), ...(databaseUrl && { databaseUrl }) }
  server = await startStaffedServer({ ...place, streamBeatMs: BEAT_MS })
  const store = await openStore(place)
  await addHistory(store.database.plain, OLD_ENTRIES)
  await store.close()
})
afterAll(async () => {
  await server.stop()
  await fresh.drop()
  await rm(folder, { recursive: true, force: true })
})

/** Entries as of one thing that was changed again and again; nobody checks their chain here. */
async function addHistory(db: Kysely<Tables>, entries: number): Promise<void> {
  const numbers =
    TESTED_KIND === 'PostgreSQL'
      ? sql`(select generate_series(1, ${sql.lit(entries)}) as i)`
      : sql`(with recursive n(i) as (select 1 union all select i + 1 from n where i < ${sql.lit(entries)})
          select i from n)`
  await sql`insert into history (seq, subject, feeder_id, subject_id, version, what, at, actor_id,
      actor_role, previous_hash, hash)
    select 1000000 + i, 'feeder', 'old', 'old', i, 'changed', '2026-05-01T08:00:00.000Z', 'somebody',
      'planner', '', '' from ${numbers} as numbers`.execute(db)
}

async function followers(): Promise<number> {
  const text = await (await server.send(routes.getMeasures, {}, server.administrator)).text()
  return Number(/^crossarm_live_followers\S* (\d+)$/m.exec(text)?.[1])
}

async function enter(email: string) {
  const answer = await server.send(routes.signIn, { body: { email, password: PASSWORD } })
  return { cookie: cookiesOf(answer) }
}

it('ends the stream of a session that has ended, and of no other', async () => {
  const { headers } = await server.hire('streams@utility.example', ['crew'])
  const other = await enter('streams@utility.example')
  const [ending, staying] = [
    await followChanges(server.address, headers),
    await followChanges(server.address, other),
  ]
  await server.send(routes.signOut, {}, headers)
  await ending.ended
  expect(await followers()).toBe(1)
  staying.leave()
  await staying.ended
})

it('ends the streams of a person whose account is closed', async () => {
  const { person, headers } = await server.hire('closing@utility.example', ['crew'])
  const stream = await followChanges(server.address, headers)
  const input = { params: { personId: person.id }, body: { ...person, state: 'closed' as const } }
  await server.call(routes.changePerson, input, server.administrator)
  await stream.ended
})

it('cuts the line of a reader that takes nothing, while others are told', async () => {
  const { headers } = await server.hire('stuck@utility.example', ['crew'])
  const stuck = await openRaw(server.address)
  stuck.socket.pause()
  stuck.send(`${requestHead('GET', '/api/changes?after=0', server.address, headers)}\r\n`)
  while ((await followers()) === 0) await sleep(BEAT_MS)
  const reading = await followChanges(server.address, headers)
  while ((await followers()) > 1) await sleep(BEAT_MS)
  stuck.socket.resume()
  const came = await stuck.closed
  expect(came).toContain('event: change')
  expect(came.split('event: change').length - 1).toBeLessThan(OLD_ENTRIES)
  // The line broke before the end of the answer, which is an empty piece (RFC 9112, section 7.1).
  expect(came.endsWith('0\r\n\r\n')).toBe(false)
  expect(await followers()).toBe(1)
  reading.leave()
})
