import type { Context, MiddlewareHandler } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { type Route, USUAL_BODY_BYTES } from '#contract/route.ts'
import { Refusal } from '../services/refusal.ts'
import { type ValueFault, valueFault } from './plain-value.ts'

/** The longest that a screen asks for is some 300 characters. */
const MOST_ADDRESS_CHARACTERS = 4096

const JSON_MEDIA_TYPE = /^application\/json\s*(?:;|$)/i

/** Refuses an address that is too long, or that holds a NUL character. */
export const limitAddress: MiddlewareHandler = async (context, next) => {
  const { pathname, search } = new URL(context.req.url)
  const address = pathname + search
  if (address.length > MOST_ADDRESS_CHARACTERS) {
    const most = MOST_ADDRESS_CHARACTERS.toLocaleString('en')
    throw new Refusal('malformed-request', `An address may be ${most} characters long at most.`)
  }
  if (address.includes('%00')) {
    throw new Refusal('malformed-request', 'The address holds a NUL character (%00).')
  }
  await next()
}

/** Refuses a body that is larger than its row of the table allows, as far as that can be told. */
export function limitBody(route: Route): MiddlewareHandler {
  if (route.takesFile) return limitFile(route.takesFile.mostBytes)
  const maxSize = route.mostBodyBytes ?? USUAL_BODY_BYTES
  return bodyLimit({ maxSize, onError: () => refuseTooLarge(maxSize) })
}

/** A file is taken as a stream, whose reader counts along; what announces its length is told at once. */
function limitFile(mostBytes: number): MiddlewareHandler {
  return async (context, next) => {
    const announced = Number(context.req.header('content-length') ?? 0)
    if (announced > mostBytes) refuseTooLarge(mostBytes)
    await next()
  }
}

/** @throws Refusal `too-large` */
export function refuseTooLarge(mostBytes: number): never {
  const most = mostBytes < 1024 * 1024 ? `${mostBytes / 1024} kB` : `${mostBytes / 1024 / 1024} MB`
  throw new Refusal('too-large', `A request may hold ${most} at most here.`)
}

/**
 * Parses a JSON body and refuses what no schema should have to think of.
 *
 * @throws Refusal `malformed-request` or `wrong-media-type`
 */
export function plainBody(route: Route): MiddlewareHandler {
  return async (context, next) => {
    if (route.body) await readBody(context)
    await next()
  }
}

async function readBody(context: Context): Promise<void> {
  if (!JSON_MEDIA_TYPE.test(context.req.header('content-type') ?? '')) {
    throw new Refusal('wrong-media-type', 'Send the body as application/json.')
  }
  const body = parse(await context.req.text())
  const fault = valueFault(body, ['body'])
  if (fault) throw refuseValue(fault)
  // The validator asks for the body again, and large ones take long to parse.
  Object.assign(context.req, { json: async () => body })
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    throw new Refusal('malformed-request', 'The body is not JSON (RFC 8259).')
  }
}

function refuseValue({ path, what }: ValueFault): Refusal {
  const at = path.join('.')
  return new Refusal('malformed-request', `${at}: ${what}.`, { faults: [{ at, what }] })
}
