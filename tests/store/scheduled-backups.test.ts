import { mkdir, readdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { BackupSchedule } from '../../server/store/archive/backup-schedule.ts'
import { restore } from '../../server/store/archive/restore.ts'
import type { OpenStore } from '../../server/store/open-store.ts'
import { temporaryPlaces } from './temporary-places.ts'
import { temporaryStore } from './temporary-store.ts'

const temporary = temporaryStore()
const places = temporaryPlaces()

/** Hours after the first of May. */
const hour = (hours: number) => new Date(Date.UTC(2026, 4, 1, hours)).toISOString()

interface Looks {
  readonly at: string
  readonly folder: string
  readonly store?: OpenStore
  readonly everyHours?: number
}

/** What a server does that looks once at that time, and what it tells of going wrong. */
async function look({ at, folder, store = temporary.store, everyHours = 24 }: Looks) {
  const faults: string[] = []
  const schedule = new BackupSchedule({
    database: store.database,
    place: temporary.options,
    ...{ folder, everyHours, keep: 2, version: '1' },
    clock: () => at,
    reportFault: (fault) => faults.push(String(fault)),
    lookEveryMs: 60_000,
  })
  await schedule.stop()
  return faults
}

const names = async (folder: string) => (await readdir(folder)).sort()

it('makes a backup when one is due and keeps the newest, each of which can be restored', async () => {
  const folder = join(places.folder(), 'backups')
  for (const hours of [0, 1, 23, 24, 30, 48, 72]) await look({ at: hour(hours), folder })
  expect(await names(folder)).toEqual([
    'scheduled-2026-05-03T000000Z.tar.gz',
    'scheduled-2026-05-04T000000Z.tar.gz',
  ])
  const place = await places.freshPlace('back')
  const file = join(folder, 'scheduled-2026-05-04T000000Z.tar.gz')
  expect(await restore({ file, place })).toMatchObject({ takenAt: hour(72) })
})

it('is made by one of several servers of a database', async () => {
  const folder = join(places.folder(), 'backups')
  await Promise.all([1, 2, 3].map(() => look({ at: hour(0), folder })))
  expect(await names(folder)).toHaveLength(1)
})

it('tells of a backup that fails, keeps the older ones, and tries again within the hour', async () => {
  const folder = join(places.folder(), 'backups')
  await look({ at: hour(0), folder })
  const inTheWay = join(places.folder(), 'no-folder')
  await writeFile(inTheWay, '')
  const faults = await look({ at: hour(24), folder: inTheWay })
  expect(faults.join()).toMatch(/backup of 2026-05-02T00:00:00.000Z failed; older ones are kept/)
  expect(await look({ at: hour(24.5), folder })).toEqual([])
  expect(await names(folder)).toHaveLength(1)
  await look({ at: hour(25), folder })
  expect(await names(folder)).toHaveLength(2)
})

it('leaves alone what others put into the folder', async () => {
  const folder = join(places.folder(), 'backups')
  await mkdir(folder)
  const others = ['before-0010-x.tar.gz', 'crossarm-2020-01-01T000000Z.tar.gz', 'notes.txt']
  for (const name of others) await writeFile(join(folder, name), '')
  for (const hours of [0, 24, 48]) await look({ at: hour(hours), folder })
  expect(await names(folder)).toEqual(expect.arrayContaining(others))
  expect(await names(folder)).toHaveLength(others.length + 2)
})

it('goes on when the clock was set back by years', async () => {
  const folder = join(places.folder(), 'backups')
  await look({ at: hour(24 * 365 * 9), folder })
  await look({ at: hour(0), folder })
  expect(await names(folder)).toHaveLength(2)
})
