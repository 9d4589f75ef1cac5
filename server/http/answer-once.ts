import { createHash } from 'node:crypto'
import type { Context } from 'hono'
import { IDEMPOTENCY_HEADER, IdempotencyKey } from '#contract/actor.ts'
import type { Asker } from '#contract/rights.ts'
import { type Route, takesKey } from '#contract/route.ts'
import { Refusal } from '../services/refusal.ts'
import type { RepeatableWrite } from '../services/repeatable-writes.ts'
import type { Services } from '../services/services.ts'
import type { Prepared } from './handlers.ts'

/** A handler seen from the table, where input and answer are only known to belong together. */
type LooseAct<Answer> = (
  input: RouteInputs,
  asker: Asker | null,
  context: Context,
) => Promise<Answer>
export type LooseHandler = LooseAct<unknown> | { readonly prepare: LooseAct<Prepared<unknown>> }

export interface RouteInputs {
  readonly params: unknown
  readonly query: unknown
  readonly body: unknown
  readonly file: unknown
}

export interface Asked {
  readonly context: Context
  readonly route: Route
  readonly asker: Asker | null
  readonly input: RouteInputs
}

/**
 * Does what is asked. Where the request carries a key and was answered before, gives that answer
 * again and does nothing.
 *
 * @throws Refusal `key-reused`, `malformed-request` for a key of a wrong form, and those of the handler
 */
export async function answerOnce(
  handler: LooseHandler,
  asked: Asked,
  repeatable: Services['repeatable'],
): Promise<unknown> {
  const key = keyOf(asked)
  if (key === null) return carryOut(await prepare(handler, asked), (write) => write())
  // A file is only known once it is there; all else is looked up before any work.
  if (!asked.route.takesFile) {
    const before = await repeatable.answerBefore(writeOf(asked, key))
    if (before) return before.answer
  }
  const prepared = await prepare(handler, asked)
  const write = writeOf(asked, key, prepared.contentHash)
  return carryOut(prepared, (work) => repeatable.once(write, work))
}

interface Key {
  readonly askerId: string
  readonly key: string
}

function keyOf({ context, route, asker }: Asked): Key | null {
  const given = context.req.header(IDEMPOTENCY_HEADER)
  if (given === undefined || asker === null || !takesKey(route)) return null
  const { success, data } = IdempotencyKey.safeParse(given)
  if (success) return { askerId: asker.id, key: data }
  throw new Refusal(
    'malformed-request',
    `The header ${IDEMPOTENCY_HEADER} takes 8 to 128 visible ASCII characters.`,
    { faults: [{ at: `headers.${IDEMPOTENCY_HEADER}`, what: 'is not of this form' }] },
  )
}

async function prepare(
  handler: LooseHandler,
  { input, asker, context }: Asked,
): Promise<Prepared<unknown>> {
  if (typeof handler !== 'function') return handler.prepare(input, asker, context)
  return { write: () => handler(input, asker, context) }
}

async function carryOut(
  { write, release }: Prepared<unknown>,
  act: (write: Prepared<unknown>['write']) => Promise<unknown>,
): Promise<unknown> {
  let isWritten = false
  try {
    const answer = await act(write)
    isWritten = true
    return answer
  } finally {
    await release?.(isWritten)
  }
}

function writeOf(
  { route, input }: Asked,
  { askerId, key }: Key,
  contentHash = '',
): RepeatableWrite {
  const { params = null, query = null, body = null } = input
  const text = JSON.stringify([route.method, route.path, params, query, body, contentHash, askerId])
  return { askerId, key, fingerprint: createHash('sha256').update(text).digest('hex') }
}
