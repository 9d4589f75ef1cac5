import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { freshDevice } from './fresh-device.ts'

/** Beats and looks come at once; how old a beat is says the clock, which the tests set. */
const QUICK = { beatMs: 5, silentMs: 150_000, lookMs: 10 }
const MORNING = Date.UTC(2026, 4, 1, 9)

/**
 * The part of the browser's locks that is used here (Web Locks API, W3C): one holder, others in
 * their turn; who waits can be called off, and a steal ends the holder's request but not its work.
 */
function fakeLocks() {
  type Work = () => Promise<void>
  interface Held {
    readonly lose: (reason: unknown) => void
  }
  let held: Held | null = null
  const queue: (() => void)[] = []
  const aborted = () => new DOMException('The lock is no longer yours.', 'AbortError')
  const take = (work: Work) =>
    new Promise<void>((resolve, reject) => {
      const own: Held = { lose: reject }
      held = own
      const end = () => {
        if (held !== own) return
        held = null
        queue.shift()?.()
      }
      work().then(resolve, reject).finally(end)
    })
  return {
    request: (_name: string, { signal, steal }: LockOptions, work: Work): Promise<void> => {
      if (steal) {
        held?.lose(aborted())
        return take(work)
      }
      if (held === null) return take(work)
      return new Promise((resolve, reject) => {
        const go = () => void take(work).then(resolve, reject)
        queue.push(go)
        signal?.addEventListener('abort', () => {
          queue.splice(queue.indexOf(go), 1)
          reject(aborted())
        })
      })
    },
  }
}

beforeEach(() => {
  freshDevice()
  vi.stubGlobal('navigator', { locks: fakeLocks() })
  vi.useFakeTimers({ toFake: ['Date'], now: MORNING })
})
afterEach(() => {
  vi.useRealTimers()
  vi.unstubAllGlobals()
})

/** A window: code of its own, on the same device. */
async function openWindow() {
  vi.resetModules()
  const { oneSender } = await import('../../../web/api/one-sender.ts')
  return oneSender(QUICK)
}

/** Waits until the window that sends has said so at the time that the clock shows. */
async function untilBeat(): Promise<void> {
  const { readRow } = await import('../../../web/device/device-store.ts')
  const now = String(Date.now())
  for (;;) {
    const beat = await readRow('facts', 'sending-window')
    if (beat?.value.split(' ')[1] === now) return
    await new Promise((resolve) => setTimeout(resolve, QUICK.beatMs))
  }
}

/** Something that is waited for until it is let go. */
function gate() {
  let open = () => {}
  const passed = new Promise<void>((resolve) => {
    open = resolve
  })
  return { passed, open }
}

describe('the one window that sends', () => {
  it('has the others wait as long as it is awake, also for long', async () => {
    const [first, second] = [await openWindow(), await openWindow()]
    const order: string[] = []
    const goOn = gate()
    const working = first(async ({ isMine }) => {
      await goOn.passed
      order.push(`first, still its turn: ${await isMine()}`)
    })
    const waiting = second(async () => {
      order.push('second')
    })
    for (const seconds of [100, 200, 300, 400]) {
      vi.setSystemTime(MORNING + seconds * 1000)
      await untilBeat()
    }
    goOn.open()
    await Promise.all([working, waiting])
    expect(order).toEqual(['first, still its turn: true', 'second'])
  })

  it('loses its turn to another one once it sleeps, and finds that out when it wakes', async () => {
    const [sleeper, other] = [await openWindow(), await openWindow()]
    const wake = gate()
    const begun = gate()
    const woken = gate()
    const found: boolean[] = []
    // A window that sleeps runs no timers.
    const timers = vi.spyOn(globalThis, 'setInterval').mockReturnValueOnce(0 as never)
    timers.mockReturnValueOnce(0 as never)
    const asleep = sleeper(async ({ isMine }) => {
      found.push(await isMine())
      begun.open()
      await wake.passed
      found.push(await isMine())
      woken.open()
    })
    await begun.passed
    timers.mockRestore()
    vi.setSystemTime(MORNING + QUICK.silentMs + 1)
    let isOthers = false
    await other(async ({ isMine }) => {
      isOthers = await isMine()
    })
    expect(isOthers).toBe(true)
    await asleep
    wake.open()
    await woken.passed
    expect(found).toEqual([true, false])
  })

  it('lets a fault of its work through, and the next one in', async () => {
    const [first, second] = [await openWindow(), await openWindow()]
    await expect(first(async () => Promise.reject(new Error('no room')))).rejects.toThrow('no room')
    const work = vi.fn(async () => {})
    await second(work)
    expect(work).toHaveBeenCalledOnce()
  })

  it('works at once where the browser has no locks', async () => {
    vi.stubGlobal('navigator', {})
    const window = await openWindow()
    const work = vi.fn(async () => {})
    await window(work)
    expect(work).toHaveBeenCalledOnce()
  })
})
