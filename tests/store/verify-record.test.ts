import { createHash } from 'node:crypto'
import { appendFile, chmod, rm, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { sql } from 'kysely'
import { beforeEach, describe, expect, it } from 'vitest'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { TESTED_KIND } from '../support/fresh-database.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { stampAt, temporaryStore } from './temporary-store.ts'

const temporary = temporaryStore()

/** Entries: 1 feeder, 2 its cover, 3 and 4 perches, 5 a change, 6 a deletion. */
beforeEach(async () => {
  const { feeders, protections } = temporary.store
  await feeders.add(smallFeeder(), 'added', stampAt(1))
  const body = { pole: 'P3', kind: 'perch', what: 'perch', state: 'on', on: '2026-05-01' } as const
  await protections.add('small', 'perch-1', body, stampAt(2))
  await protections.add('small', 'perch-2', body, stampAt(3))
  await protections.change('small', 'perch-1', 1, { ...body, note: 'loose' }, stampAt(4))
  await protections.delete('small', 'perch-1', 2, stampAt(5))
})

const WITHOUT_RULE: readonly string[] =
  TESTED_KIND === 'PostgreSQL'
    ? ['drop trigger history_no_change on history']
    : ['update', 'delete', 'replace'].map((verb) => `drop trigger history_no_${verb}`)

/** As somebody would who has the database itself in their hands. */
async function tamper(...statements: string[]): Promise<void> {
  const { plain } = temporary.store.database
  for (const statement of statements) await sql.raw(statement).execute(plain)
}

const verify = (knownHead?: string) => verifyRecord(temporary.options, knownHead)

describe('a record that nobody touched', () => {
  it('is found sound, with its head, while the server has it open', async () => {
    const report = await verify()
    const [last] = await temporary.store.history.after(5, 1)
    expect(report).toEqual({
      chain: {
        entries: 6,
        head: { seq: 6, hash: last?.hash },
        fault: null,
        knownHeadSeq: null,
      },
      database: [],
      rows: [],
      files: [],
      wholeFiles: 0,
      leftFiles: [],
    })
  })

  it('still holds a head that was noted down before more was written', async () => {
    const { head } = (await verify()).chain
    await temporary.store.protections.restore('small', 'perch-1', 3, stampAt(6))
    await temporary.store.protections.delete('small', 'perch-1', 4, stampAt(7))
    await temporary.store.protections.purge('small', 'perch-1', 5, 'mistake', stampAt(8))
    const later = await verify(head?.hash)
    expect(later.chain).toMatchObject({ entries: 9, fault: null, knownHeadSeq: 6 })
    expect(later.rows).toEqual([])
  })
})

describe('what is found after the rule of only adding was taken off', () => {
  it.each([
    ['an entry that was changed', "update history set actor_id = 'mallory' where seq = 4", 4],
    ['an entry whose content was changed', `update history set after = '{}' where seq = 3`, 3],
    ['an entry taken out of the middle', 'delete from history where seq = 3', 3],
    ['the first entry taken out', 'delete from history where seq = 1', 1],
  ])('%s', async (_, statement, seq) => {
    await tamper(...WITHOUT_RULE, statement)
    expect((await verify()).chain.fault?.seq).toBe(seq)
  })

  it('two entries that changed places', async () => {
    const swap = [
      'set seq = 99 where seq = 3',
      'set seq = 3 where seq = 4',
      'set seq = 4 where seq = 99',
    ]
    await tamper(...WITHOUT_RULE, ...swap.map((change) => `update history ${change}`))
    expect((await verify()).chain.fault?.seq).toBe(3)
  })

  it('a tail that was cut off, by the head noted down before', async () => {
    const { head } = (await verify()).chain
    await tamper(...WITHOUT_RULE, 'delete from history where seq >= 5')
    expect((await verify()).chain.fault).toBeNull()
    const report = await verify(head?.hash)
    expect(report.chain).toMatchObject({ head: { seq: 4 }, knownHeadSeq: null })
  })
})

describe('rows are held against the history', () => {
  it.each([
    [
      'a row changed behind its back',
      "update protections set pole = 'P5' where id = 'perch-2'",
      'The protection perch-2 of feeder small is not as the history left it.',
    ],
    [
      'a row taken out behind its back',
      "delete from protections where id = 'perch-2'",
      'The protection perch-2 of feeder small is missing, though the history does not say that it was purged.',
    ],
    [
      'a row with a version that was never written',
      "update protections set version = 7 where id = 'perch-2'",
      'The protection perch-2 of feeder small has a version that the history does not know.',
    ],
    [
      'a feeder changed behind its back',
      "update feeder_versions set feeder = replace(feeder, 'Small feeder', 'Other')",
      'Version 1 of feeder small is not as the history left it.',
    ],
  ])('%s', async (_, statement, fault) => {
    await tamper(statement)
    const report = await verify()
    expect(report.rows).toEqual([fault])
    expect(report.chain.fault).toBeNull()
  })
})

describe('the database itself', () => {
  it('is asked for rows that refer to nothing', async () => {
    const remove = "delete from feeders where id = 'small'"
    if (TESTED_KIND === 'PostgreSQL')
      await tamper(`set session_replication_role = replica; ${remove}`)
    else await tamper('pragma foreign_keys = off', remove)
    const { database } = await verify()
    expect(database.join(' ')).toMatch(/rows? of protections refers? to what is not in feeders/i)
  })

  it('has to be there, and of this version of the program', async () => {
    const nowhere = { dataFolder: `${temporary.folder}/nowhere` }
    await expect(verifyRecord(nowhere)).rejects.toThrow(/There is no database in .*nowhere/)
    await tamper("delete from kysely_migration where name = '0004-history-chain'")
    await expect(verify()).rejects.toThrow(/older version of the program/)
  })
})

describe('attached files', () => {
  async function attach(): Promise<string> {
    const content = new Blob(['%PDF-1.7\n%%EOF\n']).stream() as ReadableStream<Uint8Array>
    const { attachments } = temporary.store
    const staging = await attachments.stage(content, 1000)
    if (staging.status !== 'staged') throw new Error(`Expected a file, got ${staging.status}.`)
    const attachment = {
      id: 'report-1',
      feederId: 'small',
      attachedTo: 'pole',
      attachedToId: 'P3',
      fileName: 'report.pdf',
      note: '',
    } as const
    const { sha256 } = await attachments.add(attachment, staging.file, stampAt(9))
    return join(temporary.folder, 'attachments', sha256.slice(0, 2), sha256)
  }

  it('are read and held against their hashes and the rows that refer to them', async () => {
    const file = await attach()
    expect(await verify()).toMatchObject({ rows: [], files: [], wholeFiles: 1, leftFiles: [] })
    await chmod(file, 0o600)
    await appendFile(file, 'more')
    expect((await verify()).files).toEqual([`${file} is not what was taken in.`])
    await rm(file)
    expect((await verify()).files).toEqual(['The file of attachment report-1 is missing.'])
  })

  it('that nothing refers to are named, and are no fault', async () => {
    const file = await attach()
    const stray = join(dirname(file), createHash('sha256').update('stray').digest('hex'))
    await writeFile(stray, 'stray')
    expect(await verify()).toMatchObject({ files: [], leftFiles: [stray] })
  })
})
