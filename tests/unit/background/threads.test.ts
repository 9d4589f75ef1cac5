import { afterAll, beforeAll, expect, it } from 'vitest'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { type OpenThreads, openThreads } from '../../../server/background/threads.ts'
import { layersOfFeeder } from '../../../server/layer-files/layers-of-feeder.ts'
import { smallFeeder } from '../../support/small-feeder.ts'

const workerFile = (name: string) =>
  new URL(`../../../server/background/${name}.ts`, import.meta.url)
const ONE_BANK = SiteRequest.parse({})
const TWO_BANKS = SiteRequest.parse({ banks: 2 })
const SHORT = smallFeeder()
const LONG = smallFeeder({ poles: 260 })

let threads: OpenThreads
beforeAll(() => {
  threads = openThreads(workerFile, 1)
})
afterAll(() => threads.close())

/** A search with a promise of the moment when it leaves the queue. */
function site(feeder: typeof LONG, request: SiteRequest) {
  const leaveOff = new AbortController()
  let begin: () => void = () => undefined
  const begun = new Promise<void>((resolve) => {
    begin = resolve
  })
  const outcome = threads.site(feeder, request, { tell: () => begin(), signal: leaveOff.signal })
  const settled = outcome.then(
    ({ status }) => status,
    () => 'ended from outside',
  )
  return { cancel: () => leaveOff.abort(), begun, settled }
}

it('solves at once while a search takes the only thread for long work', async () => {
  const search = site(LONG, TWO_BANKS)
  await search.begun
  const solved = await threads.solve(SHORT, { taps: 'controlled' })
  expect(solved).toEqual(solveFeeder(SHORT, { taps: 'controlled' }))
  search.cancel()
  expect(await search.settled).not.toBe('done')
})

it('drops a search that still waits without disturbing the one that runs', async () => {
  const running = site(LONG, TWO_BANKS)
  await running.begun
  const waiting = site(SHORT, ONE_BANK)
  waiting.cancel()
  expect(await waiting.settled).toBe('ended from outside')
  const next = site(SHORT, ONE_BANK)
  running.cancel()
  expect(await running.settled).not.toBe('done')
  expect(await next.settled).toBe('done')
})

it('reads and checks the layers of a feeder', async () => {
  const text = JSON.stringify(layersOfFeeder(SHORT))
  const follow = { tell: () => undefined, signal: new AbortController().signal }
  const { feeder } = await threads.readLayers(text, follow)
  expect(feeder?.poles).toEqual(SHORT.poles)
})
