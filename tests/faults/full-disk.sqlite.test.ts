import { mkdirSync, readdirSync, rmSync, statfsSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { backUp } from '../../server/store/archive/back-up.ts'
import { openStore } from '../../server/store/open-store.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { COORDINATOR, SMALL, startTestServer } from '../http/test-server.ts'
import { makeDatabaseOf, NEWEST } from '../store/database-of-version.ts'
import { mountSmallDisk } from './small-disk.ts'

const FEEDER = { params: { feederId: SMALL } }
const BODY = {
  pole: 'P2',
  kind: 'cover',
  what: 'x'.repeat(200),
  state: 'on',
  on: '2026-05-01',
} as const
const AT = '2026-11-25T10:00:00.000Z'

const disk = mountSmallDisk(12)
afterAll(() => disk?.remove())

/** Takes all the room that is left. */
function fill(file: string): void {
  const { bavail, bsize } = statfsSync(join(file, '..'))
  writeFileSync(file, Buffer.alloc(bavail * bsize))
}

describe.runIf(disk !== null)('a full disk', () => {
  it('is said, breaks nothing, and writing goes on once there is room', async () => {
    const dataFolder = join(disk?.folder ?? '', 'data')
    const server = await startTestServer({ dataFolder })
    const add = () => server.call(routes.addProtection, { ...FEEDER, body: BODY }, COORDINATOR)
    const answered = [(await add()).id]
    fill(join(disk?.folder ?? '', 'ballast'))
    const problems: string[] = []
    // The log of the file may have room left for a few.
    for (let tries = 0; tries < 3000 && problems.length === 0; tries++) {
      await add().then(
        ({ id }) => void answered.push(id),
        ({ problem }) => void problems.push(`${problem.status} ${problem.code}: ${problem.detail}`),
      )
    }
    expect(problems[0]).toMatch(/^503 unavailable: .*disk/)
    const list = () => server.call(routes.listProtections, FEEDER, COORDINATOR)
    expect((await list()).map(({ id }) => id)).toEqual(expect.arrayContaining(answered))
    rmSync(join(disk?.folder ?? '', 'ballast'))
    answered.push((await add()).id)
    const kept = (await list()).map(({ id }) => id)
    expect(kept).toEqual(expect.arrayContaining(answered))
    expect(kept).toHaveLength(answered.length + 1)
    await server.stop()
    const { chain, database, rows } = await verifyRecord({ dataFolder })
    expect([chain.fault, database, rows]).toEqual([null, [], []])
  })

  it('fails a backup plainly, and leaves older ones and nothing else', async () => {
    const place = { dataFolder: join(disk?.folder ?? '', 'kept') }
    const to = join(disk?.folder ?? '', 'backups')
    mkdirSync(place.dataFolder)
    await makeDatabaseOf(NEWEST, place)
    const backup = (takenAt: string) => backUp({ place, to: `${to}/`, version: '1', takenAt })
    await backup(AT)
    const kept = readdirSync(to)
    fill(join(disk?.folder ?? '', 'ballast'))
    await expect(backup('2026-11-25T11:00:00.000Z')).rejects.toThrow(/ENOSPC|disk/)
    expect(readdirSync(to)).toEqual(kept)
    rmSync(join(disk?.folder ?? '', 'ballast'))
  })

  it('that can only be read lets no server start, and says what to do', async () => {
    const dataFolder = join(disk?.folder ?? '', 'kept')
    disk?.makeReadOnly()
    await expect(openStore({ dataFolder, isServer: true })).rejects.toThrow(
      /cannot be used:.*(read|open).*CROSSARM_DATA/is,
    )
  })
})
