import { expect, it } from 'vitest'
import type { ChangeEvent } from '#contract/history.ts'
import type { Asker } from '#contract/rights.ts'
import { ChangeFeed } from '../../server/services/change-feed.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { stampAt, temporaryStore } from './temporary-store.ts'

const temporary = temporaryStore()

/** Subjects that the asker is told of, until the last change of the test. */
async function toldOf(events: AsyncIterable<ChangeEvent>, last: number): Promise<string[]> {
  const subjects: string[] = []
  for await (const event of events) {
    if (event.event === 'change') subjects.push(event.data.subject)
    if (event.event === 'change' && event.data.seq === last) break
  }
  return subjects
}

it('people are told of only to those who manage them, and to a machine what its token is for', async () => {
  const { store } = temporary
  const feed = new ChangeFeed({ store, reportFault: (fault) => expect.fail(String(fault)) })
  const askers: readonly Asker[] = [
    { id: 'ada', role: 'administrator' },
    { id: 'pat', role: 'planner' },
    { id: 'machine', role: 'administrator', only: ['see feeders and solve voltages'] },
  ]
  const person = { id: 'new', name: 'New Person', email: 'new@crossarm.example', isDemo: false }
  await store.people.add({ ...person, roles: ['crew'], state: 'active' }, stampAt(1))
  await store.feeders.add(smallFeeder({ id: 'small' }), 'added', stampAt(2))
  const last = await store.history.newestSeq()
  const told = askers.map((asker) => toldOf(feed.follow(asker, 0), last))
  const ofFeeder = ['feeder', 'protection']
  expect(await Promise.all(told)).toEqual([['person', ...ofFeeder], ofFeeder, ofFeeder])
  feed.stop()
})

it('a follower that leaves while nothing happens is let go of at once', async () => {
  const feed = new ChangeFeed({ store: temporary.store, reportFault: () => undefined })
  const events = feed.follow({ id: 'pat', role: 'planner' })[Symbol.asyncIterator]()
  expect((await events.next()).value).toMatchObject({ event: 'here' })
  const waiting = events.next()
  expect(feed.followers).toBe(1)
  await events.return?.()
  expect(await waiting).toMatchObject({ done: true })
  expect(feed.followers).toBe(0)
  feed.stop()
})

it('two hundred followers are told by reading the history once for all of them', async () => {
  const { store } = temporary
  let reads = 0
  const after: typeof store.history.after = (...given) => {
    reads++
    return store.history.after(...given)
  }
  const counted = { ...store, history: { ...store.history, after } }
  const feed = new ChangeFeed({
    store: counted,
    reportFault: (fault) => expect.fail(String(fault)),
  })
  const crowd = Array.from({ length: 200 }, () => feed.follow({ id: 'pat', role: 'planner' }))
  const streams = crowd.map((events) => events[Symbol.asyncIterator]())
  await Promise.all(streams.map((stream) => stream.next()))
  const next = Promise.all(streams.map((stream) => stream.next()))
  await store.feeders.add(smallFeeder({ id: 'small' }), 'added', stampAt(1))
  for (const { value } of await next) expect(value).toMatchObject({ event: 'change' })
  // One for the change; a second where it was heard of once more.
  expect(reads).toBeLessThanOrEqual(2)
  feed.stop()
})
