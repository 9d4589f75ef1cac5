import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { createReadStream, createWriteStream } from 'node:fs'
import { mkdir, readdir, readFile, rm, stat, truncate, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { setImmediate as nextTurn } from 'node:timers/promises'
import { createGunzip, createGzip, gunzipSync, gzipSync } from 'node:zlib'
import { sql } from 'kysely'
import { extract, type Header, pack } from 'tar-stream'
import { beforeEach, describe, expect, it } from 'vitest'
import { archiveName, backUp } from '../../server/store/archive/back-up.ts'
import { restore } from '../../server/store/archive/restore.ts'
import { openStore } from '../../server/store/open-store.ts'
import type { Place } from '../../server/store/place.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { everything, makeDatabaseOf, NEWEST, withDatabaseOf } from './database-of-version.ts'
import { ATTACHED, ATTACHED_SHA256, TRICKY } from './rows-of-version.ts'
import { temporaryPlaces } from './temporary-places.ts'
import { stampAt } from './temporary-store.ts'

const AT = '2026-11-25T10:00:00.000Z'

const { freshPlace, ...places } = temporaryPlaces()
let folder: string
let place: Place
beforeEach(async () => {
  folder = places.folder()
  place = await freshPlace('source')
})

function backUpTo(to: string) {
  return backUp({ place, to, version: '1.2.3', takenAt: AT })
}

describe('a backup', () => {
  it('brings back every row and every attached file as they were', async () => {
    await makeDatabaseOf(NEWEST, place)
    const { file } = await backUpTo(join(folder, 'one.tar.gz'))
    const target = await freshPlace('target')
    await restore({ file, place: target })
    const before = await everything(place)
    expect(before.auth_sessions).toHaveLength(1)
    expect(await everything(target)).toEqual({ ...before, auth_sessions: [] })
    const path = `attachments/${ATTACHED_SHA256.slice(0, 2)}/${ATTACHED_SHA256}`
    expect(await readFile(join(target.dataFolder, path))).toEqual(ATTACHED)
  })

  it('can be read by any program that reads tar, and says what it holds', async () => {
    await makeDatabaseOf(NEWEST, place)
    const { file, manifest } = await backUpTo(folder)
    expect(file).toBe(join(folder, archiveName(AT)))
    const out = join(folder, 'out')
    await mkdir(out)
    execFileSync('tar', ['-xzf', file, '-C', out])
    expect(JSON.parse(await readFile(join(out, 'manifest.json'), 'utf8'))).toEqual(manifest)
    expect(manifest).toMatchObject({
      version: '1.2.3',
      lastMigration: NEWEST,
      takenAt: AT,
      attachments: [{ sha256: ATTACHED_SHA256, sizeBytes: ATTACHED.length }],
      historyHead: { seq: 1 },
    })
    const lines = await readFile(join(out, 'tables/protections.jsonl'))
    const table = manifest.tables.find(({ name }) => name === 'protections')
    expect(table?.sha256).toBe(createHash('sha256').update(lines).digest('hex'))
    expect(JSON.parse(String(lines))).toMatchObject({ id: 'cover-1', what: TRICKY })
    const [user] = String(await readFile(join(out, 'tables/auth_users.jsonl'))).split('\n')
    expect(JSON.parse(user ?? '')).toMatchObject({
      createdAt: '2026-05-01T08:00:00.000Z',
      updatedAt: '2026-05-01T08:00:00.123Z',
    })
  })

  it('holds nobody’s session, says so, and is for its owner’s eyes alone', async () => {
    await makeDatabaseOf(NEWEST, place)
    const { file, manifest } = await backUpTo(join(folder, 'one.tar.gz'))
    expect(manifest.leftOut).toContain('auth_sessions')
    expect(gunzipSync(await readFile(file)).includes('secret of a session')).toBe(false)
    expect((await stat(file)).mode & 0o777).toBe(0o600)
    expect((await readdir(folder)).sort()).toEqual(['one.tar.gz', 'source'])
  })

  it('is of one moment, whatever is written while it is made', async () => {
    const store = await openStore(place)
    await store.feeders.add(smallFeeder(), 'added', stampAt(0))
    const body = { pole: 'P2', kind: 'cover', what: 'c', state: 'on', on: '2026-05-01' } as const
    let isWriting = true
    const writing = (async () => {
      for (let number = 1; isWriting; number++) {
        await store.protections.add('small', `item-${number}`, body, stampAt(1))
        // A request would come in by itself; this loop has to let others have a turn.
        await nextTurn()
      }
    })()
    const { file, manifest } = await backUpTo(join(folder, 'busy.tar.gz'))
    isWriting = false
    await writing
    await store.close()
    const target = await freshPlace('target')
    await restore({ file, place: target })
    const restored = await openStore(target)
    const kept = await restored.protections.list('small')
    // Each protection has one entry, and so has the feeder.
    expect(manifest.historyHead?.seq).toBe(kept.length + 1)
    await restored.close()
  })

  it('leaves an older file alone, and nothing behind where it fails', async () => {
    await makeDatabaseOf(NEWEST, place)
    const file = join(folder, 'kept.tar.gz')
    await writeFile(file, 'older')
    await expect(backUpTo(file)).rejects.toThrow('is there already')
    await rm(join(place.dataFolder, 'attachments'), { recursive: true })
    await mkdir(join(place.dataFolder, 'attachments', ATTACHED_SHA256.slice(0, 2)), {
      recursive: true,
    })
    await writeFile(
      join(place.dataFolder, 'attachments', ATTACHED_SHA256.slice(0, 2), ATTACHED_SHA256),
      'changed',
    )
    await expect(backUpTo(join(folder, 'new.tar.gz'))).rejects.toThrow('not what was attached')
    expect((await readdir(folder)).sort()).toEqual(['kept.tar.gz', 'source'])
    expect(await readFile(file, 'utf8')).toBe('older')
  })

  it('names the attached files that are missing, and holds the rest', async () => {
    await makeDatabaseOf(NEWEST, place)
    await rm(join(place.dataFolder, 'attachments'), { recursive: true })
    const { missing, manifest } = await backUpTo(join(folder, 'one.tar.gz'))
    expect([missing, manifest.attachments]).toEqual([[ATTACHED_SHA256], []])
  })
})

type Change = (header: Header, content: Buffer) => [Partial<Header>, Buffer] | null

/** The same archive with its members changed, left out (null) or followed by others. */
async function forged(file: string, change: Change, extra: Partial<Header>[] = []) {
  const target = join(folder, 'forged.tar.gz')
  const [from, to] = [extract(), pack()]
  const written = pipeline(to, createGzip(), createWriteStream(target))
  const read = pipeline(createReadStream(file), createGunzip(), from)
  for await (const entry of from) {
    const parts: Buffer[] = []
    for await (const part of entry) parts.push(part as Buffer)
    const changed = change(entry.header, Buffer.concat(parts))
    if (changed) to.entry({ name: entry.header.name, ...changed[0] }, changed[1])
  }
  for (const header of extra) to.entry({ name: '', ...header }, 'x'.repeat(header.size ?? 0))
  to.finalize()
  await Promise.all([read, written])
  return target
}

const asItIs: Change = (_header, content) => [{}, content]

describe('restoring', () => {
  let file: string
  beforeEach(async () => {
    await makeDatabaseOf(NEWEST, place)
    file = (await backUpTo(join(folder, 'whole.tar.gz'))).file
  })

  async function expectRefused(archive: string, words: RegExp | string): Promise<void> {
    const target = await freshPlace('target')
    await expect(restore({ file: archive, place: target })).rejects.toThrow(words)
    expect(await readdir(target.dataFolder)).toEqual([])
    if (target.databaseUrl !== undefined) {
      expect(await everything(target)).toEqual({})
    }
  }

  it.each<[string, Change, Partial<Header>[], RegExp]>([
    [
      'with a changed row',
      ({ name }, content) => [
        {},
        name === 'tables/people.jsonl'
          ? Buffer.from(String(content).replace('Robin', 'Rabin'))
          : content,
      ],
      [],
      /people\.jsonl in it is not what was written/,
    ],
    [
      'with a changed attached file',
      ({ name }, content) => [{}, name.startsWith('attachments/') ? Buffer.from('other') : content],
      [],
      /attachments\/[0-9a-f]{64} in it is not what was written/,
    ],
    [
      'with a table missing',
      ({ name }, content) => (name === 'tables/history.jsonl' ? null : [{}, content]),
      [],
      /lacks tables\/history\.jsonl/,
    ],
    [
      'without its manifest',
      ({ name }, content) => (name === 'manifest.json' ? null : [{}, content]),
      [],
      /no manifest/,
    ],
    [
      'with a manifest of another form',
      ({ name }, content) => [{}, name === 'manifest.json' ? Buffer.from('{"form":"x"}') : content],
      [],
      /manifest does not fit/,
    ],
    ['with a name that climbs out', asItIs, [{ name: '../out.txt', size: 1 }], /no archive has/],
    ['with a name from the root', asItIs, [{ name: '/etc/out', size: 1 }], /no archive has/],
    [
      'with a link',
      asItIs,
      [{ name: 'tables/link.jsonl', type: 'symlink', linkname: '/etc/passwd' }],
      /no plain file but a symlink/,
    ],
    [
      'with more than its manifest names',
      asItIs,
      [{ name: `attachments/${'0'.repeat(64)}`, size: 1 }],
      /its manifest does not name/,
    ],
    ['with a member twice', asItIs, [{ name: 'manifest.json', size: 1 }], /twice/],
  ])('refuses an archive %s, and puts nothing there', async (_what, change, extra, words) => {
    await expectRefused(await forged(file, change, extra), words)
  })

  it('refuses an archive that is cut off, or is none, and puts nothing there', async () => {
    const { size } = await stat(file)
    await truncate(file, size - 40)
    await expectRefused(file, /cannot be used/)
    const other = join(folder, 'other.tar.gz')
    await writeFile(other, gzipSync('not a tar at all'.repeat(100)))
    await rm(join(folder, 'target'), { recursive: true })
    await expectRefused(other, /cannot be used/)
  })

  it('refuses an archive whose history is broken, though every hash of a file is right', async () => {
    await withDatabaseOf(place, async ({ plain, kind }) => {
      const off =
        kind === 'sqlite'
          ? 'drop trigger history_no_update'
          : 'alter table history disable trigger user'
      await sql.raw(off).execute(plain)
      await sql`update history set actor_id = 'sam'`.execute(plain)
    })
    const { file: broken } = await backUpTo(join(folder, 'broken.tar.gz'))
    await expectRefused(broken, /history is broken at entry 1/)
  })

  it('refuses a place that holds something, and leaves it as it is', async () => {
    const target = await freshPlace('target')
    const store = await openStore(target)
    await store.feeders.add(smallFeeder({ id: 'other' }), 'added', stampAt(0))
    await store.close()
    await expect(restore({ file, place: target })).rejects.toThrow('is not empty')
    const again = await openStore(target)
    expect((await again.feeders.list()).map(({ id }) => id)).toEqual(['other'])
    await again.close()
  })

  it('refuses an archive of a newer version, and says which version that was', async () => {
    const newer: Change = ({ name }, content) => [
      {},
      name === 'manifest.json'
        ? Buffer.from(String(content).replace(NEWEST, '9999-later'))
        : content,
    ]
    await expectRefused(
      await forged(file, newer),
      /newer version of Crossarm \(1\.2\.3\).*9999-later/,
    )
  })
})
