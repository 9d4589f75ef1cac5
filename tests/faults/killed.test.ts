import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { sql } from 'kysely'
import { expect, it } from 'vitest'
import { stepsTaken } from '../../server/store/migrate.ts'
import { openStore } from '../../server/store/open-store.ts'
import type { Place } from '../../server/store/place.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { everything, makeDatabaseOf, NEWEST, withDatabaseOf } from '../store/database-of-version.ts'
import { temporaryPlaces } from '../store/temporary-places.ts'
import { runProgram } from './run-program.ts'

const KILL_AFTER_WRITES = 120
const OLD_ENTRIES = 3000

const { freshPlace } = temporaryPlaces()

/** The database is sound, the chain unbroken, and every row is as its history says. */
async function expectSound(place: Place): Promise<void> {
  const { chain, database, rows } = await verifyRecord(place)
  expect([chain.fault, database, rows]).toEqual([null, [], []])
}

it('loses no write that was answered when the server is killed in the middle of the next', async () => {
  const place = await freshPlace('killed')
  const { child, ended, lines } = runProgram('keep-writing.ts', place)
  const answered: string[] = []
  for await (const line of lines) {
    answered.push(line)
    if (answered.length === KILL_AFTER_WRITES) child.kill('SIGKILL')
  }
  expect(await ended).toBe('SIGKILL')
  expect(answered.length).toBeGreaterThanOrEqual(KILL_AFTER_WRITES)
  await expectSound(place)
  // The claim of the folder ended with the process: a server starts again without hands.
  const store = await openStore({ ...place, isServer: true })
  const kept = (await store.protections.list('small')).map(({ id }) => id)
  expect(kept).toEqual(expect.arrayContaining(answered))
  // More may be kept than was told: what stood in the pipe went with the process.
  const written = kept.filter((id) => id.startsWith('item-'))
  const inOrder = written.map((_, index) => `item-${index + 1}`)
  expect(written.toSorted()).toEqual(inOrder.toSorted())
  await store.close()
})

it('keeps a feeder whole or not at all when it is killed while taking it in', async () => {
  const place = await freshPlace('killed')
  const { child, ended, lines } = runProgram('keep-importing.ts', place)
  const answered: number[] = []
  for await (const line of lines) {
    if (line !== 'begun') answered.push(Number(line))
    else if (answered.length >= 2) setTimeout(() => child.kill('SIGKILL'), 15)
  }
  expect(await ended).toBe('SIGKILL')
  await expectSound(place)
  const store = await openStore(place)
  const newest = await store.feeders.find('small')
  const last = answered.at(-1) ?? 0
  expect([last, last + 1]).toContain(newest?.version)
  expect(newest?.feeder.poles).toHaveLength(2000)
  expect(await store.protections.list('small')).toHaveLength(1999)
  await store.close()
})

it('is at the old version or the new one when it is killed while bringing a database up to date', async () => {
  const place = await freshPlace('killed')
  await makeDatabaseOf('0003-protections-and-history', place)
  await addHistory(place, OLD_ENTRIES)
  const before = await everything(place)
  const { child, ended } = runProgram('bring-up-to-date.ts', place)
  // The steps begin once the backup before them is whole.
  while (!(await hasBackup(place))) await sleep(5)
  await sleep(30)
  child.kill('SIGKILL')
  expect(await ended).toBe('SIGKILL')
  const steps = await withDatabaseOf(place, ({ plain, kind }) => stepsTaken(plain, kind))
  expect(['0003-protections-and-history', NEWEST]).toContain(steps.at(-1))
  if (steps.at(-1) !== NEWEST) expect(await everything(place)).toEqual(before)
  const store = await openStore(place)
  expect(await store.proposals.list('small')).toHaveLength(1)
  await store.close()
  const { chain, database } = await verifyRecord(place)
  expect([chain.fault, chain.entries, database]).toEqual([null, OLD_ENTRIES + 1, []])
})

async function hasBackup({ dataFolder }: Place): Promise<boolean> {
  const names = await readdir(join(dataFolder, 'backups')).catch(() => [])
  return names.some((name) => name.endsWith('.tar.gz'))
}

/** Old entries of one proposal, so many that the step that chains them takes its time. */
async function addHistory(place: Place, entries: number): Promise<void> {
  const numbers = {
    sqlite: sql`with recursive n(i) as (select 2 union all select i + 1 from n where i <= ${entries})
      select i from n`,
    postgres: sql`select generate_series(2, ${sql.lit(entries + 1)}) as i`,
  }
  await withDatabaseOf(place, ({ plain, kind }) =>
    sql`insert into history select subject, feeder_id, subject_id, i, at, actor_id, actor_role, after, after
      from history, (${numbers[kind]}) as numbers`.execute(plain),
  )
}
