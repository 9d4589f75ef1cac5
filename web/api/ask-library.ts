import { z } from 'zod'

const BASE = '/api/auth'
const Refused = z.object({ message: z.string() })

/**
 * Asks one of the addresses of the sign-in library, which stand outside of the route table.
 *
 * @param body left out for reading
 * @throws Error in the library's or in plain words
 */
export async function askLibrary<Schema extends z.ZodType>(
  path: string,
  schema: Schema,
  body?: unknown,
): Promise<z.output<Schema>> {
  const isReading = body === undefined
  const answer = await fetch(BASE + path, {
    method: isReading ? 'GET' : 'POST',
    credentials: 'same-origin',
    ...(!isReading && {
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    }),
  }).catch((cause: unknown) => {
    throw new Error('The server does not answer. Check the connection and try again.', { cause })
  })
  const content: unknown = await answer.json().catch(() => null)
  if (answer.ok) return schema.parse(content)
  const told = Refused.safeParse(content).data?.message
  throw new Error(told ?? `The server refused (${answer.status}).`)
}
