import type { OpenAPIHono } from '@hono/zod-openapi'
import { bodyLimit } from 'hono/body-limit'
import { askLibrary } from '../people/ask-library.ts'
import { AUTH_PATH } from '../people/auth.ts'
import { LIBRARY_ADDRESSES } from '../people/library-addresses.ts'
import type { People } from '../people/people.ts'
import { Refusal } from '../services/refusal.ts'

/** What a passkey says of itself is a few kilobytes. */
const MOST_BODY_BYTES = 64 * 1024

/** Lets requests through to the addresses of the library of sign-in that are set up, and to no other. */
export function serveLibrary(app: OpenAPIHono, { ports, parts }: People): void {
  const limit = bodyLimit({ maxSize: MOST_BODY_BYTES, onError: refuseTooLarge })
  for (const { method, path, partOf, step } of LIBRARY_ADDRESSES) {
    if (!parts.has(partOf)) continue
    app.on(method, AUTH_PATH + path, limit, async (context) => {
      const answer = await askLibrary(ports, context.req.raw, step)
      return new Response(answer.body, answer)
    })
  }
}

function refuseTooLarge(): never {
  throw new Refusal('too-large', `This may hold ${MOST_BODY_BYTES / 1024} kB at most.`)
}
