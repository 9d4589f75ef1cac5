import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { sql } from 'kysely'
import { expect, it } from 'vitest'
import type { HistoryEntry } from '../../server/services/ports.ts'
import { checkChain } from '../../server/store/history-chain.ts'
import { migrate } from '../../server/store/migrate.ts'
import { openStore } from '../../server/store/open-store.ts'
import { DATABASE_FILE } from '../../server/store/place.ts'
import { openPostgres } from '../../server/store/postgres.ts'
import { openSqlite } from '../../server/store/sqlite.ts'
import { freshDatabase } from '../support/fresh-database.ts'
import { stampAt } from './temporary-store.ts'

const STANDING = '{"pole":"P2","deletedAt":null}'
const DELETED = '{"pole":"P2","deletedAt":"2026-05-01T08:00:03.000Z"}'

/** A history as the first versions of the program wrote it, in the order of writing. */
const OLD = [
  ['feeder', 'small', 1, stampAt(1).at, null, '{"version":1}'],
  ['protection', 'cover-1', 1, stampAt(1).at, null, STANDING],
  ['protection', 'cover-1', 2, stampAt(2).at, STANDING, STANDING],
  ['protection', 'cover-1', 3, stampAt(3).at, STANDING, DELETED],
  ['protection', 'cover-1', 4, stampAt(4).at, DELETED, STANDING],
] as const

it('numbers and chains the history that a database of before already has', async () => {
  const dataFolder = await mkdtemp(join(tmpdir(), 'crossarm-chain-'))
  const { databaseUrl, drop } = await freshDatabase()
  const connections =
    databaseUrl === undefined
      ? openSqlite(join(dataFolder, DATABASE_FILE))
      : openPostgres(databaseUrl, () => undefined)
  const { writer, kind } = connections
  await migrate(writer, kind, '0003-protections-and-history')
  for (const [subject, id, version, at, before, after] of OLD) {
    await sql`insert into history values
      (${subject}, 'small', ${id}, ${version}, ${at}, 'robin', 'crew', ${before}, ${after})
    `.execute(writer)
  }
  await writer.destroy()
  const store = await openStore({ dataFolder, ...(databaseUrl && { databaseUrl }) })
  const entries: HistoryEntry[] = []
  for await (const entry of store.history.all()) entries.push(entry)
  expect(entries.map(({ seq, what, version }) => [seq, what, version])).toEqual([
    [1, 'added', 1],
    [2, 'added', 1],
    [3, 'changed', 2],
    [4, 'deleted', 3],
    [5, 'restored', 4],
  ])
  expect(entries[3]).toMatchObject({
    actorId: 'robin',
    at: stampAt(3).at,
    deviceAt: null,
    before: { pole: 'P2' },
  })
  expect((await checkChain(store.history.all())).fault).toBeNull()
  await store.close()
  await drop()
  await rm(dataFolder, { recursive: true })
})
