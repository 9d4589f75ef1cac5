import { readRow, writeRowsAnyhow } from '../device/device-store.ts'
import { sayTrouble } from '../device/device-troubles.ts'
import { randomId } from '../device/random-id.ts'

/** A window's turn of sending. */
export interface Turn {
  /** False once another window has taken it over, as from one that slept. */
  readonly isMine: () => Promise<boolean>
}

interface SenderTimes {
  /** So often the window that sends says that it is alive. */
  readonly beatMs: number
  /** A window that said nothing for so long sleeps. */
  readonly silentMs: number
  /** So often a window that waits looks for the beat. */
  readonly lookMs: number
}

/** Browsers let timers of hidden pages run once a minute only (from memory), which is no sleep. */
const TIMES: SenderTimes = { beatMs: 20_000, silentMs: 150_000, lookMs: 15_000 }

/** Held by the one window that sends. */
const LOCK = 'crossarm-outbox'
/** Name of the fact: whose turn it is and when that window was last awake. */
const BEAT = 'sending-window'

/**
 * Lets one window work at a time. A window that the system has put to sleep in its turn would hold
 * it for good: once its beat stands still the turn is taken over, and the sleeper finds out by
 * `isMine`. Where the browser has no locks, as on plain http, every window has its turn at once.
 */
export function oneSender(
  times: SenderTimes = TIMES,
): (work: (turn: Turn) => Promise<void>) => Promise<void> {
  return async (work) => {
    const locks = globalThis.navigator?.locks
    if (!locks) return work({ isMine: async () => true })
    const waiting = new AbortController()
    let isHeld = false
    const hold = () => {
      isHeld = true
      return workWithBeat(work, times.beatMs)
    }
    const looking = setInterval(() => {
      if (isHeld) clearInterval(looking)
      else isSilent(times.silentMs).then((isAsleep) => isAsleep && waiting.abort(), sayTrouble)
    }, times.lookMs)
    try {
      await untilTaken(locks.request(LOCK, { signal: waiting.signal }, hold))
      if (!isHeld) await untilTaken(locks.request(LOCK, { steal: true }, hold))
    } finally {
      clearInterval(looking)
    }
  }
}

/** The browser ends a request that waited no longer, or whose lock was taken over. */
async function untilTaken(request: Promise<void>): Promise<void> {
  try {
    await request
  } catch (error) {
    if (!(error instanceof DOMException && error.name === 'AbortError')) throw error
  }
}

async function workWithBeat(work: (turn: Turn) => Promise<void>, beatMs: number): Promise<void> {
  const turnId = randomId()
  const isMine = async () => (await lastBeat())?.turnId === turnId
  const beat = () =>
    writeRowsAnyhow([{ table: 'facts', put: { name: BEAT, value: `${turnId} ${Date.now()}` } }])
  const beatOn = async () => {
    if (await isMine()) await beat()
    else clearInterval(beating)
  }
  await beat()
  const beating = setInterval(() => void beatOn().catch(sayTrouble), beatMs)
  try {
    await work({ isMine })
  } finally {
    clearInterval(beating)
  }
}

/** Also where the clock was set back meanwhile: then nobody can say how old the beat is. */
async function isSilent(silentMs: number): Promise<boolean> {
  const beat = await lastBeat()
  return beat === null || Math.abs(Date.now() - beat.atMs) > silentMs
}

async function lastBeat(): Promise<{ readonly turnId: string; readonly atMs: number } | null> {
  const [turnId, at] = (await readRow('facts', BEAT))?.value.split(' ') ?? []
  return turnId === undefined ? null : { turnId, atMs: Number(at) }
}
