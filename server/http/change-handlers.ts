import type { Context } from 'hono'
import { Refusal } from '../services/refusal.ts'
import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

/** Sent by a browser whose stream broke (HTML Living Standard, 9.2.4). */
const LAST_EVENT_HEADER = 'last-event-id'

export function changeHandlers({ changes }: Services): Pick<Handlers, 'followChanges'> {
  return {
    followChanges: async ({ query }, asker, context) =>
      changes.follow(asker, lastEvent(context) ?? query.after),
  }
}

function lastEvent(context: Context): number | undefined {
  const text = context.req.header(LAST_EVENT_HEADER)
  if (text === undefined || text === '') return undefined
  if (/^\d{1,15}$/.test(text)) return Number(text)
  throw new Refusal('malformed-request', `The header ${LAST_EVENT_HEADER} takes a whole number.`, {
    faults: [{ at: `headers.${LAST_EVENT_HEADER}`, what: 'is not the id of an event' }],
  })
}
