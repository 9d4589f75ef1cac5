import { spawn } from 'node:child_process'
import { once as onceEmitted } from 'node:events'
import { fileURLToPath } from 'node:url'
import { beforeEach, expect, it } from 'vitest'
import { repeatableWrites } from '../../server/services/repeatable-writes.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { stampAt, temporaryStore } from './temporary-store.ts'

const temporary = temporaryStore()
beforeEach(async () => {
  await temporary.store.feeders.add(smallFeeder({ id: 'small' }), 'added', stampAt(0))
})

const WRITE = { askerId: 'robin', key: 'key-number-one', fingerprint: 'of all that was asked' }
const BODY = { pole: 'P3', kind: 'cover', what: 'cap', state: 'on', on: '2026-05-01' } as const

function addCover(id: string) {
  return temporary.store.protections.add('small', id, BODY, stampAt(1))
}

it('a write whose server was killed before it was kept is done when it is asked for again', async () => {
  const dying = spawn(
    process.execPath,
    [
      ...['--import', 'tsx', fileURLToPath(new URL('die-while-writing.ts', import.meta.url))],
      ...[JSON.stringify(temporary.options), JSON.stringify(WRITE)],
    ],
    { stdio: ['ignore', 'ignore', 'inherit'] },
  )
  const [, signal] = await onceEmitted(dying, 'exit')
  expect(signal).toBe('SIGKILL')
  const { store } = temporary
  expect((await store.protections.list('small')).map(({ id }) => id)).toEqual(['cover-1'])
  const { once } = repeatableWrites({ store, clock: () => stampAt(2).at })
  const answers = [
    await once(WRITE, () => addCover('cover-9')),
    await once(WRITE, () => addCover('x')),
  ]
  expect(answers[1]).toEqual(answers[0])
  const ids = (await store.protections.list('small')).map(({ id }) => id)
  expect(ids.sort()).toEqual(['cover-1', 'cover-9'])
})

it('keeps nothing of a write that fails half way', async () => {
  const { store } = temporary
  const { once } = repeatableWrites({ store, clock: () => stampAt(2).at })
  const failing = once(WRITE, async () => {
    await addCover('cover-9')
    throw new Error('Something else failed.')
  })
  await expect(failing).rejects.toThrow('Something else failed.')
  expect(await store.requestKeys.find(WRITE.askerId, WRITE.key)).toBeNull()
  expect(await store.history.of('protection', 'cover-9')).toEqual([])
})

it('forgets a key after a week', async () => {
  const { store } = temporary
  const days = (count: number) => new Date(Date.UTC(2026, 4, 1 + count)).toISOString()
  await repeatableWrites({ store, clock: () => days(0) }).once(WRITE, async () => 'first')
  const other = { ...WRITE, key: 'key-number-two' }
  await repeatableWrites({ store, clock: () => days(6) }).once(other, async () => 'other')
  expect(await store.requestKeys.find(WRITE.askerId, WRITE.key)).not.toBeNull()
  const third = { ...WRITE, key: 'key-number-three' }
  await repeatableWrites({ store, clock: () => days(8) }).once(third, async () => 'third')
  expect(await store.requestKeys.find(WRITE.askerId, WRITE.key)).toBeNull()
  expect(await store.requestKeys.find(WRITE.askerId, other.key)).not.toBeNull()
})
