import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { sql } from 'kysely'
import { describe, expect, it } from 'vitest'
import { restore } from '../../server/store/archive/restore.ts'
import { MIGRATIONS, migrate } from '../../server/store/migrate.ts'
import { type OpenStore, openStore } from '../../server/store/open-store.ts'
import type { Place } from '../../server/store/place.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { everything, makeDatabaseOf, NEWEST, STEPS, withDatabaseOf } from './database-of-version.ts'
import { rowsOfVersion, TRICKY } from './rows-of-version.ts'
import { temporaryPlaces } from './temporary-places.ts'

const { freshPlace } = temporaryPlaces()

async function backupsIn({ dataFolder }: Place): Promise<string[]> {
  return readdir(join(dataFolder, 'backups')).catch(() => [])
}

/** What the program of today reads of what that version wrote. */
async function expectWhole(store: OpenStore, step: string): Promise<void> {
  const had = rowsOfVersion(step)
  expect(await store.feeders.find('small')).toMatchObject({
    feeder: smallFeeder({ name: TRICKY }),
    version: 1,
  })
  expect(Object.keys((await store.land.find('valley')) ?? {})).toHaveLength(3)
  const proposals = await store.proposals.list('small')
  expect(proposals.map(({ name }) => name)).toEqual(had.has('proposals') ? [TRICKY] : [])
  const protections = await store.protections.list('small')
  expect(protections.map(({ what }) => what)).toEqual(had.has('protections') ? [TRICKY] : [])
  const done = had.has('work') ? 'whole' : 'study-done'
  const hadWork = had.has('work') || had.has('studies')
  expect((await store.work.find(done))?.state).toBe(hadWork ? 'done' : undefined)
  const people = await store.people.list()
  expect(people.map(({ name }) => name)).toEqual(had.has('people') ? ['Robin'] : [])
  const attachments = await store.attachments.list('small', {})
  expect(attachments.map(({ id }) => id)).toEqual(had.has('attachments') ? ['report'] : [])
  const jobs = await store.jobs.list()
  expect(jobs.map(({ title, entries }) => [title, entries])).toEqual(
    had.has('jobs') ? [[TRICKY, 2]] : [],
  )
  expect(await store.jobs.entries('job')).toHaveLength(had.has('jobs') ? 2 : 0)
}

describe.each(STEPS)('a database of the version that ended with %s', (step) => {
  it('is kept in a backup, brought up to date whole, and comes back from that backup', async () => {
    const place = await freshPlace('old')
    await makeDatabaseOf(step, place)
    const before = await everything(place)
    const store = await openStore({ ...place, version: '1.2.3' })
    await expectWhole(store, step)
    await store.close()
    const { chain, database } = await verifyRecord(place)
    expect([chain.fault, database]).toEqual([null, []])
    expect(chain.entries).toBe(step >= '0003' ? 1 : 0)
    const [name, ...more] = await backupsIn(place)
    expect(more).toEqual([])
    expect(name === undefined).toBe(step === NEWEST)
    if (name === undefined) return
    expect(name).toContain(`before-${STEPS[STEPS.indexOf(step) + 1]}`)
    const target = await freshPlace('back')
    const manifest = await restore({ file: join(place.dataFolder, 'backups', name), place: target })
    expect(manifest).toMatchObject({ lastMigration: step, version: '1.2.3', attachments: null })
    const kept = Object.values(before).flat().length
    const leftOut = manifest.leftOut.flatMap((table) => before[table] ?? []).length
    expect(manifest.tables.reduce((sum, { rows }) => sum + rows, 0)).toBe(kept - leftOut)
    const again = await openStore(target)
    await expectWhole(again, step)
    await again.close()
  })
})

describe('bringing a database up to date', () => {
  it('leaves it as it was where a step fails, with what earlier steps had done undone', async () => {
    const place = await freshPlace('old')
    await makeDatabaseOf('0003-protections-and-history', place)
    const before = await everything(place)
    // A table in the way of the newest step, so that all steps before it have run.
    const inTheWay = sql`create table backup_turns (in_the_way integer)`
    await withDatabaseOf(place, ({ plain }) => inTheWay.execute(plain))
    await expect(openStore(place)).rejects.toThrow(/is as it was: step 0010-backup-turns failed/)
    const { backup_turns: _inTheWay, ...after } = await everything(place)
    expect(after).toEqual(before)
    await withDatabaseOf(place, ({ plain }) => sql`drop table backup_turns`.execute(plain))
    const store = await openStore(place)
    await expectWhole(store, '0003-protections-and-history')
    await store.close()
  })

  it('is not begun where the backup before it cannot be written', async () => {
    const place = await freshPlace('old')
    await makeDatabaseOf('0003-protections-and-history', place)
    const before = await everything(place)
    const backupsFolder = '/dev/null/backups'
    await expect(openStore({ ...place, backupsFolder })).rejects.toThrow(
      /backup before that failed/,
    )
    expect(await everything(place)).toEqual(before)
  })

  it('is done once where two processes try at the same time', async () => {
    const place = await freshPlace('old')
    await makeDatabaseOf('0002-studies-and-proposals', place)
    const both = await Promise.all([1, 2].map(() => openStore(place)))
    for (const store of both) await expectWhole(store, '0002-studies-and-proposals')
    for (const store of both) await store.close()
  })

  it('refuses what a newer version wrote, and says what to do', async () => {
    const place = await freshPlace('newer')
    await withDatabaseOf(place, async ({ plain, kind }) => {
      await migrate(plain, kind)
      await sql`insert into kysely_migration values ('9999-later', '2030-01-01')`.execute(plain)
    })
    await expect(openStore(place)).rejects.toThrow(/newer version of Crossarm.*9999-later/)
    expect(await backupsIn(place)).toEqual([])
  })

  it('knows its steps by rising numbers, each once', () => {
    const numbers = Object.keys(MIGRATIONS).map((name) => name.slice(0, 4))
    expect(numbers).toEqual([...new Set(numbers)].sort())
  })
})
