import { afterEach, beforeEach, expect, it } from 'vitest'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { openSitingPool, type SitingPool } from '../../server/background/siting-pool.ts'
import { smallFeeder } from '../support/small-feeder.ts'

const WORKER = new URL('../../server/background/siting-worker.ts', import.meta.url)
const ONE_BANK = SiteRequest.parse({})
const TWO_BANKS = SiteRequest.parse({ banks: 2 })
const SHORT = smallFeeder()
const LONG = smallFeeder({ poles: 260 })
const ignore = () => undefined

let pool: SitingPool
beforeEach(() => {
  pool = openSitingPool(WORKER, 1)
})
afterEach(() => pool.close())

/** A job with a promise of the moment when it leaves the queue. */
function started(feeder: typeof LONG) {
  let begin: () => void = ignore
  const begun = new Promise<void>((resolve) => {
    begin = resolve
  })
  return { ...pool.run(feeder, TWO_BANKS, () => begin()), begun }
}

it('lets a second job wait until the first has ended', async () => {
  const order: string[] = []
  const first = pool.run(SHORT, TWO_BANKS, () => order.push('first'))
  const second = pool.run(SHORT, ONE_BANK, () => order.push('second'))
  await Promise.all([first.outcome, second.outcome])
  expect(order.lastIndexOf('first')).toBeLessThan(order.indexOf('second'))
})

it('drops a job that still waits without disturbing the one that runs', async () => {
  const running = started(LONG)
  await running.begun
  const waiting = pool.run(SHORT, ONE_BANK, ignore)
  waiting.cancel()
  expect(await waiting.outcome).toEqual({ status: 'cancelled' })
  const next = pool.run(SHORT, ONE_BANK, ignore)
  running.cancel()
  expect(await running.outcome).toEqual({ status: 'cancelled' })
  expect(await next.outcome).toMatchObject({ status: 'done' })
})
