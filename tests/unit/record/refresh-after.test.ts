import { QueryClient, QueryObserver } from '@tanstack/react-query'
import { describe, expect, it } from 'vitest'
import { refreshAfter, refreshFetchedBefore } from '../../../web/api/refresh-after.ts'

const FETCHED = [
  ['proposals', 'mill'],
  ['jobs', null],
  ['feeder', 'mill'],
  ['land', 'valley'],
]

const NOTICE = {
  seq: 7,
  at: '2026-11-28T10:00:00.000Z',
  subject: 'proposal',
  subjectId: 'p1',
  feederId: 'mill',
  version: 2,
  actorId: 'robin',
  what: 'changed',
} as const

describe('once changes by others are followed', () => {
  it('asks again for what was fetched before, but for no whole feeder and no land', async () => {
    const client = new QueryClient()
    for (const key of FETCHED) client.setQueryData(key, [])
    await refreshFetchedBefore(client)
    const stale = FETCHED.filter((key) => client.getQueryState(key)?.isInvalidated)
    expect(stale).toEqual([
      ['proposals', 'mill'],
      ['jobs', null],
    ])
  })
})

describe('a change that is told while its list is fetched for the first time', () => {
  it.each([
    ['by a notice', (client: QueryClient) => refreshAfter(client, NOTICE)],
    ['by the beginning of following', refreshFetchedBefore],
  ])('shows, though the answer under way knew nothing of it: %s', async (_how, tell) => {
    const client = new QueryClient()
    const record = ['old']
    const answers: (() => void)[] = []
    const observer = new QueryObserver(client, {
      queryKey: ['proposals', 'mill'],
      queryFn: () => {
        const read = [...record]
        return new Promise<string[]>((resolve) => answers.push(() => resolve(read)))
      },
    })
    const stop = observer.subscribe(() => {})
    record.push('new')
    const told = tell(client)
    while (!observer.getCurrentResult().data?.includes('new') && answers.length > 0) {
      answers.shift()?.()
      await new Promise((done) => setTimeout(done, 5))
    }
    await told
    expect(observer.getCurrentResult().data).toEqual(['old', 'new'])
    stop()
    client.clear()
  })
})
