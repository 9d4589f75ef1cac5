import { QueryClient } from '@tanstack/react-query'
import { describe, expect, it } from 'vitest'
import { refreshFetchedBefore } from '../../../web/api/refresh-after.ts'

const FETCHED = [
  ['proposals', 'mill'],
  ['jobs', null],
  ['feeder', 'mill'],
  ['land', 'valley'],
]

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
