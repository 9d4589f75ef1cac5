import { describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { type Door, SignInLimits } from '../../server/people/sign-in-limits.ts'
import { Refusal } from '../../server/services/refusal.ts'
import { temporaryStore } from '../store/temporary-store.ts'
import { startStaffedServer } from './staff.ts'

const temporary = temporaryStore()
const START_MS = Date.UTC(2026, 4, 1, 8)
const MINUTE_S = 60

/** Limits on a clock that stands still until it is moved. */
function limitsAt() {
  let nowMs = START_MS
  const clock = () => new Date(nowMs).toISOString()
  const limits = new SignInLimits(temporary.store.tries, 'a secret of the test', clock)
  /** Seconds to wait, or null for a try that was taken. */
  const fail = async (door: Door): Promise<number | null> => {
    const wrong = new Error('wrong')
    const outcome = await limits.guard(door, () => Promise.reject(wrong)).catch((error) => error)
    if (outcome === wrong) return null
    if (outcome instanceof Refusal) return outcome.extras.retryAfterS ?? null
    throw outcome
  }
  const failTimes = async (times: number, door: (time: number) => Door) => {
    for (let time = 0; time < times; time++) {
      const waitS = await fail(door(time))
      if (waitS !== null) nowMs += waitS * 1000
      if (waitS !== null) await fail(door(time))
    }
  }
  return {
    limits,
    fail,
    failTimes,
    succeed: (door: Door) => limits.guard(door, async () => 'in'),
    pass: (seconds: number) => {
      nowMs += seconds * 1000
    },
  }
}

const HOME = { account: 'pat@utility.example', address: '192.0.2.1' }
const elsewhere = (number: number) => ({ ...HOME, address: `198.51.100.${number % 250}` })

describe('somebody who fails again and again', () => {
  it('waits twice as long after each failure, and never more than 15 minutes', async () => {
    const { fail, pass } = limitsAt()
    const waits: number[] = []
    for (let failures = 0; failures < 18; failures++) {
      const waitS = await fail(HOME)
      if (waitS === null) continue
      waits.push(waitS)
      pass(waitS)
      await fail(HOME)
    }
    expect(waits.slice(0, 5)).toEqual([1, 2, 4, 8, 16])
    expect(Math.max(...waits)).toBe(15 * MINUTE_S)
  })

  it('may type a password wrong four times without waiting', async () => {
    const { fail, succeed } = limitsAt()
    for (let failures = 0; failures < 4; failures++) expect(await fail(HOME)).toBeNull()
    expect(await succeed(HOME)).toBe('in')
    expect(await fail(HOME)).toBeNull()
  })

  it('is not let through by trying many at once', async () => {
    const { fail } = limitsAt()
    const outcomes = await Promise.all(Array.from({ length: 12 }, () => fail(HOME)))
    expect(outcomes.filter((waitS) => waitS === null)).toHaveLength(5)
  })

  it('is slowed as an address that goes through many accounts', async () => {
    const { fail, failTimes } = limitsAt()
    await failTimes(30, (time) => ({ account: `a${time}@utility.example`, address: '192.0.2.9' }))
    expect(await fail({ account: 'next@utility.example', address: '192.0.2.9' })).toBeGreaterThan(0)
  })

  it('is forgotten after a day', async () => {
    const { failTimes, fail, pass } = limitsAt()
    await failTimes(8, () => HOME)
    pass(24 * 60 * MINUTE_S + 15 * MINUTE_S)
    for (let failures = 0; failures < 4; failures++) expect(await fail(HOME)).toBeNull()
  })
})

describe('an owner whose account others try to guess', () => {
  it('comes in at once from where they have come in before', async () => {
    const { failTimes, succeed } = limitsAt()
    await succeed(HOME)
    await failTimes(200, elsewhere)
    expect(await succeed(HOME)).toBe('in')
  })

  it('waits half a minute at most from anywhere else', async () => {
    const { failTimes, fail } = limitsAt()
    await failTimes(60, elsewhere)
    const waitS = await fail({ ...HOME, address: '203.0.113.7' })
    expect(waitS).toBeGreaterThan(0)
    expect(waitS).toBeLessThanOrEqual(30)
  })
})

it('keeps no email and no address', async () => {
  const { fail } = limitsAt()
  await fail(HOME)
  const rows = await temporary.store.database.query
    .selectFrom('sign_in_tries')
    .selectAll()
    .execute()
  expect(rows).not.toHaveLength(0)
  expect(JSON.stringify(rows)).not.toMatch(/pat|utility|192/)
})

it('says when to try again, the same for an email that nobody has', async () => {
  const server = await startStaffedServer()
  for (const email of ['alex@utility.example', 'nobody@utility.example']) {
    const body = { email, password: 'not the password' }
    const tries = Array.from({ length: 7 }, () => server.send(routes.signIn, { body }))
    const answers = await Promise.all(tries)
    const statuses = answers.map(({ status }) => status).sort()
    expect(statuses).toEqual([401, 401, 401, 401, 401, 429, 429])
    const told = answers.filter(({ status }) => status === 429)
    for (const { headers } of told) expect(Number(headers.get('retry-after'))).toBeGreaterThan(0)
  }
  await server.stop()
})
