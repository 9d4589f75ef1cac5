import { setTimeout as sleep } from 'node:timers/promises'
import { sql } from 'kysely'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ACTING_ROLE_HEADER } from '#contract/actor.ts'
import { openPostgres } from '../../server/store/postgres.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { temporaryPlaces } from '../store/temporary-places.ts'
import { enterDemo } from '../support/enter-demo.ts'
import { TESTED_KIND } from '../support/fresh-database.ts'
import { findBinaries, type PostgresCluster, startCluster } from '../support/postgres-server.ts'
import { addressOf, runServer } from './run-program.ts'

const BODY = { kind: 'cover', what: 'cover', state: 'on', on: '2026-05-01' }
const RECOVER_WITHIN_MS = 30_000

const binaries = findBinaries()
const places = temporaryPlaces()

describe.runIf(TESTED_KIND === 'PostgreSQL' && binaries !== null)('a database server', () => {
  let cluster: PostgresCluster
  beforeAll(async () => {
    cluster = await startCluster(binaries ?? '')
  })
  afterAll(() => cluster.stop())

  it('that drops a connection in the middle of a change costs this change alone', async () => {
    const { writer } = openPostgres(cluster.url, () => undefined)
    try {
      const cutOff = writer.transaction().execute(async (transaction) => {
        const mine = await sql<{ pid: number }>`select pg_backend_pid() as pid`.execute(transaction)
        await sql`select pg_terminate_backend(${mine.rows[0]?.pid})`.execute(writer)
        // Long enough for the break to arrive while no statement is under way.
        await sleep(200)
        await sql`select 1`.execute(transaction)
      })
      await expect(cutOff).rejects.toThrow()
      const after = await sql<{ one: number }>`select 1 as one`.execute(writer)
      expect(after.rows).toEqual([{ one: 1 }])
    } finally {
      await writer.destroy()
    }
  })

  it('that is started again under load costs plain answers meanwhile, and no answered write', async () => {
    const { dataFolder } = await places.freshPlace('data', 'SQLite')
    const server = runServer({ CROSSARM_DATA: dataFolder, DATABASE_URL: cluster.url })
    try {
      const address = await addressOf(server)
      const cookie = await enterDemo(address, 'coordinator')
      const headers = {
        cookie,
        [ACTING_ROLE_HEADER]: 'coordinator',
        'content-type': 'application/json',
        origin: address,
      }
      const { feederId, pole } = await firstFeeder(address, headers)
      const protections = `${address}/api/feeders/${feederId}/protections`
      const statuses: number[] = []
      const answered: string[] = []
      const add = async () => {
        const answer = await fetch(protections, {
          method: 'POST',
          headers,
          body: JSON.stringify({ ...BODY, pole }),
        })
        const { id, code, detail } = (await answer.json()) as Record<string, string | undefined>
        if (answer.status === 201 && id !== undefined) answered.push(id)
        else expect([answer.status, code], detail).toEqual([503, 'unavailable'])
        statuses.push(answer.status)
        return answer.status
      }
      await Promise.all(Array.from({ length: 20 }, add))
      expect(answered).toHaveLength(20)
      const underLoad = Promise.all(Array.from({ length: 20 }, add))
      cluster.halt()
      await underLoad
      expect(await Promise.all([add(), add(), add()])).toEqual([503, 503, 503])
      cluster.start()
      const until = Date.now() + RECOVER_WITHIN_MS
      while ((await add()) !== 201 && Date.now() < until) await sleep(100)
      expect(await Promise.all(Array.from({ length: 10 }, add))).toEqual(Array(10).fill(201))
      const kept = (await (await fetch(protections, { headers })).json()) as { id: string }[]
      expect(kept.map(({ id }) => id)).toEqual(expect.arrayContaining(answered))
      expect(server.child.exitCode).toBeNull()
    } finally {
      server.child.kill('SIGTERM')
      await server.ended
    }
    const { chain, rows } = await verifyRecord({ dataFolder, databaseUrl: cluster.url })
    expect([chain.fault, rows]).toEqual([null, []])
  })
})

/** A feeder of the demo, and one of its poles. */
async function firstFeeder(address: string, headers: Record<string, string>) {
  const listed = await fetch(`${address}/api/feeders`, { headers })
  const [first] = (await listed.json()) as { id: string }[]
  const found = await fetch(`${address}/api/feeders/${first?.id}`, { headers })
  const { feeder } = (await found.json()) as { feeder: { poles: { id: string }[] } }
  return { feederId: first?.id ?? '', pole: feeder.poles[1]?.id ?? '' }
}
