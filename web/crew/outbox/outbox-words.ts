import type { OutboxItem } from '../../api/outbox.ts'
import { counted } from '../../state/format.ts'

export type Standing = OutboxItem['state'] | 'set aside'

/** In the order in which a person has to look at them. */
export const STANDINGS: readonly Standing[] = [
  'conflict',
  'refused',
  'sending',
  'waiting',
  'kept',
  'set aside',
]

export const STANDING_TITLES: Readonly<Record<Standing, string>> = {
  conflict: 'Somebody else changed the same: you choose',
  refused: 'Not taken by the server',
  sending: 'Being sent',
  waiting: 'Waiting on this device',
  kept: 'Arrived',
  'set aside': 'Set aside by you',
}

export function standingOf({ state, setAsideAt }: OutboxItem): Standing {
  return setAsideAt === undefined ? state : 'set aside'
}

/** The first line: "3 things wait on this device, 1 needs you." */
export function outboxInWords(items: readonly OutboxItem[]): string {
  const count = (...standings: readonly Standing[]) =>
    items.filter((item) => standings.includes(standingOf(item))).length
  const unsent = count('waiting', 'sending')
  const forYou = count('conflict', 'refused')
  const waiting =
    unsent === 0
      ? 'Nothing waits to be sent'
      : `${counted(unsent, 'thing')} ${unsent === 1 ? 'waits' : 'wait'} on this device`
  return forYou === 0
    ? `${waiting}.`
    : `${waiting}, ${forYou} ${forYou === 1 ? 'needs' : 'need'} you.`
}

const MINUTE_MS = 60_000
const HOUR_MS = 60 * MINUTE_MS
/** Clocks that differ by less are not worth a word. */
const LEAST_SKEW_MS = 2 * MINUTE_MS

/** What a wrong clock of the device means; null where it goes well enough or nobody knows. */
export function skewInWords(clockSkewMs: number | null): string | null {
  if (clockSkewMs === null || Math.abs(clockSkewMs) < LEAST_SKEW_MS) return null
  const byMs = Math.abs(clockSkewMs)
  const by =
    byMs < HOUR_MS
      ? counted(Math.round(byMs / MINUTE_MS), 'minute')
      : counted(Math.round(byMs / HOUR_MS), 'hour')
  const way = clockSkewMs > 0 ? 'fast' : 'slow'
  return `The clock of this device is ${by} ${way}. Times of entry are the device's; the server notes its own beside them. Set the clock.`
}
