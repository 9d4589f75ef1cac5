import { expect, it } from 'vitest'
import { smallFeeder } from '../support/small-feeder.ts'
import { stampAt, temporaryStore } from './temporary-store.ts'

const temporary = temporaryStore()

it('gives a feeder back exactly as it was, also after a new start', async () => {
  const feeder = smallFeeder()
  await temporary.store.feeders.add(feeder, 'published', stampAt(1))
  const reopened = await temporary.reopen()
  expect(await reopened.feeders.find('small')).toEqual({ feeder, version: 1, origin: 'published' })
})

it('keeps every version and lists only the newest', async () => {
  const { feeders } = temporary.store
  expect(await feeders.add(smallFeeder({ poles: 4 }), 'demo', stampAt(1))).toBe(1)
  expect(await feeders.add(smallFeeder({ poles: 9 }), 'added', stampAt(2))).toBe(2)
  const versions = [await feeders.find('small', 1), await feeders.find('small')]
  expect(versions.map((found) => found?.feeder.poles.length)).toEqual([4, 9])
  const listed = await feeders.list()
  expect(listed.map(({ version, poles, origin }) => [version, poles, origin])).toEqual([
    [2, 9, 'demo'],
  ])
  expect(await feeders.count()).toBe(1)
})

it('lists feeders by name', async () => {
  for (const [id, name] of [
    ['b', 'Alder'],
    ['a', 'Willow'],
    ['c', 'Birch'],
  ]) {
    await temporary.store.feeders.add(smallFeeder({ id, name }), 'added', stampAt(1))
  }
  const names = (await temporary.store.feeders.list()).map(({ name }) => name)
  expect(names).toEqual(['Alder', 'Birch', 'Willow'])
})

it('knows no feeder and no version that was never kept', async () => {
  await temporary.store.feeders.add(smallFeeder(), 'added', stampAt(1))
  expect(await temporary.store.feeders.find('other')).toBeNull()
  expect(await temporary.store.feeders.find('small', 2)).toBeNull()
})

it('keeps nothing of a feeder when one of its items cannot be kept', async () => {
  const feeder = smallFeeder()
  feeder.protections.push({ ...feeder.protections[0]! })
  await expect(temporary.store.feeders.add(feeder, 'added', stampAt(1))).rejects.toThrow(/unique/i)
  expect(await temporary.store.feeders.count()).toBe(0)
  expect(await temporary.store.history.of('protection', 'cover-1')).toEqual([])
})

it('replaces the land of a place whole', async () => {
  const { land } = temporary.store
  const empty = { type: 'FeatureCollection' as const, features: [] }
  await land.keep('valley', { creek: empty, roads: empty })
  await land.keep('valley', { fences: empty })
  expect(await land.find('valley')).toEqual({ fences: empty })
  expect(await land.find('hill')).toBeNull()
})
