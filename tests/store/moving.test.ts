import { rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { sql } from 'kysely'
import { beforeEach, describe, expect, it } from 'vitest'
import { move } from '../../server/store/archive/move.ts'
import { claimFolder } from '../../server/store/folder-claim.ts'
import { openStore } from '../../server/store/open-store.ts'
import type { Place } from '../../server/store/place.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { TESTED_KIND } from '../support/fresh-database.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { everything, makeDatabaseOf, NEWEST, withDatabaseOf } from './database-of-version.ts'
import { ATTACHED_SHA256, TRICKY } from './rows-of-version.ts'
import { temporaryPlaces } from './temporary-places.ts'
import { stampAt } from './temporary-store.ts'

const { freshPlace } = temporaryPlaces()

describe.runIf(TESTED_KIND === 'PostgreSQL')('moving from SQLite to PostgreSQL', () => {
  let source: Place
  let target: Place
  let url: string
  beforeEach(async () => {
    source = await freshPlace('source', 'SQLite')
    target = await freshPlace('target')
    url = target.databaseUrl ?? ''
  })

  it('brings every row with its history and files, and says that all agree', async () => {
    await makeDatabaseOf(NEWEST, source)
    const { dataFolder } = source
    const report = await move({ dataFolder, url, filesTo: target.dataFolder })
    expect(report).toMatchObject({ movedBefore: 0, attachments: 1, missing: [] })
    const [before, after] = [await everything(source), await everything(target)]
    const counts = (lines: Record<string, string[]>) =>
      Object.entries(lines).map(([table, rows]) => [table, rows.length])
    expect(counts(after)).toEqual(counts(before))
    // Flags are numbers in the one and booleans in the other.
    expect(after.auth_users?.[0]).toBe(
      before.auth_users?.[0]?.replace('"emailVerified":1', '"emailVerified":true'),
    )
    expect({ ...after, auth_users: [] }).toEqual({ ...before, auth_users: [] })
    const { chain, database, files } = await verifyRecord(target)
    expect([chain.fault, chain.entries, database, files]).toEqual([null, 1, [], []])
    const store = await openStore(target)
    expect((await store.protections.list('small')).map(({ what }) => what)).toEqual([TRICKY])
    await store.feeders.add(smallFeeder({ id: 'next' }), 'added', stampAt(9))
    await store.close()
    expect((await verifyRecord(target)).chain.fault).toBeNull()
  })

  it('brings what an older version wrote up to date in the new place, and not in the old', async () => {
    await makeDatabaseOf('0003-protections-and-history', source)
    const before = await everything(source)
    await move({ dataFolder: source.dataFolder, url })
    expect(await everything(source)).toEqual(before)
    const store = await openStore(target)
    expect((await store.proposals.list('small')).map(({ name }) => name)).toEqual([TRICKY])
    await store.close()
  })

  it('goes on where it was cut short, and no server starts on half of it', async () => {
    await makeDatabaseOf(NEWEST, source)
    const { dataFolder } = source
    const cutShort = move({
      dataFolder,
      url,
      onProgress: (_done, _total, phase) => {
        if (phase === 'Table protections') throw new Error('cut short')
      },
    })
    await expect(cutShort).rejects.toThrow('cut short')
    await expect(openStore(target)).rejects.toThrow(/not finished.*crossarm move/)
    const { movedBefore, tables } = await move({ dataFolder, url })
    expect(movedBefore).toBeGreaterThan(1)
    expect(movedBefore).toBeLessThan(tables.length)
    expect((await everything(target)).protections).toEqual((await everything(source)).protections)
    await (await openStore(target)).close()
  })

  it('does not go on where the file was written to in between', async () => {
    await makeDatabaseOf(NEWEST, source)
    const { dataFolder } = source
    const stop = (_done: number, _total: number, phase: string) => {
      if (phase === 'History') throw new Error('cut short')
    }
    await expect(move({ dataFolder, url, onProgress: stop })).rejects.toThrow('cut short')
    await withDatabaseOf(source, ({ plain }) =>
      sql`update people set name = 'Other'`.execute(plain),
    )
    await expect(move({ dataFolder, url })).rejects.toThrow(/written to since.*people/)
  })

  it('refuses while a server runs on the file, and a database that holds something else', async () => {
    await makeDatabaseOf(NEWEST, source)
    const { dataFolder } = source
    const server = claimFolder(dataFolder)
    await expect(move({ dataFolder, url })).rejects.toThrow(/Stop it first/)
    server.release()
    await (await openStore(target)).close()
    await expect(move({ dataFolder, url })).rejects.toThrow(/not empty/)
  })

  it('tells of attached files that are gone or changed', async () => {
    await makeDatabaseOf(NEWEST, source)
    const { dataFolder } = source
    const file = join(dataFolder, 'attachments', ATTACHED_SHA256.slice(0, 2), ATTACHED_SHA256)
    await rm(file)
    expect((await move({ dataFolder, url })).missing).toEqual([ATTACHED_SHA256])
    await writeFile(file, 'other')
    const next = await freshPlace('next')
    await expect(move({ dataFolder, url: next.databaseUrl ?? '' })).rejects.toThrow(
      /not what was attached/,
    )
  })
})
