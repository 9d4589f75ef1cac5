import { join } from 'node:path'
import { sql } from 'kysely'
import { describe, expect, it } from 'vitest'
import { MIGRATIONS, migrate } from '../../server/store/migrate.ts'
import { openStore } from '../../server/store/open-store.ts'
import { DATABASE_FILE } from '../../server/store/place.ts'
import { openSqlite } from '../../server/store/sqlite.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { stampAt, temporaryStore } from './temporary-store.ts'

const temporary = temporaryStore()
const file = () => join(temporary.folder, DATABASE_FILE)

/** A connection beside that of the store, as another program would have it. */
const openWriter = (path = file()) => openSqlite(path).writer

async function pragma(name: string, path = file()): Promise<unknown> {
  const db = openWriter(path)
  const { rows } = await sql.raw<Record<string, unknown>>(`PRAGMA ${name}`).execute(db)
  await db.destroy()
  return Object.values(rows[0] ?? {})[0]
}

describe('every connection', () => {
  it.each([
    ['journal_mode', 'wal'],
    ['synchronous', 2],
    ['foreign_keys', 1],
    ['busy_timeout', 5000],
  ])('has %s set to %s, on a new file and on one that is opened again', async (name, value) => {
    const fresh = join(temporary.folder, `${name}.sqlite`)
    expect([await pragma(name, fresh), await pragma(name, fresh)]).toEqual([value, value])
    expect(await pragma(name)).toBe(value)
  })
})

describe('the tables', () => {
  it('are made once and left alone afterwards', async () => {
    await temporary.store.feeders.add(smallFeeder(), 'added', stampAt(1))
    const reopened = await temporary.reopen()
    expect(await reopened.feeders.count()).toBe(1)
    const db = openWriter()
    await migrate(db, 'sqlite')
    const steps = await sql<{ name: string }>`select name from kysely_migration`.execute(db)
    expect(steps.rows.map(({ name }) => name).sort()).toEqual(Object.keys(MIGRATIONS))
    await db.destroy()
  })

  it('are refused when a newer program wrote them', async () => {
    const db = openWriter()
    await sql`insert into kysely_migration values ('9999-later', '2030-01-01')`.execute(db)
    await db.destroy()
    await expect(openStore({ dataFolder: temporary.folder })).rejects.toThrow(/9999-later/)
  })

  it('do not take an item of a feeder that is not there', async () => {
    const db = openWriter()
    const stray = sql`insert into protections
      (feeder_id, id, version, pole, kind, what, state, state_date, actor_id, actor_role, changed_at)
      values ('nowhere', 'x', 1, 'P1', 'cover', 'w', 'on', '2026-01-01', 'a', 'crew', 't')`
    await expect(stray.execute(db)).rejects.toThrow(/FOREIGN KEY/)
    await db.destroy()
  })
})
