import type { OutboxItem } from '../../api/outbox.ts'
import { counted } from '../../state/format.ts'

export type Standing = OutboxItem['state'] | 'set aside'

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
