import type { z } from 'zod'

/** Row part of a route that answers JSON. */
export function jsonAnswer<const Status extends 200 | 201 | 202, Schema extends z.ZodType>(
  status: Status,
  schema: Schema,
  what: string,
) {
  return { status, schema, what, mediaType: 'application/json' } as const
}
