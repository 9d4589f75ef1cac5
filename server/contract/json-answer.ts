import { z } from 'zod'

/** Row part of a route that answers JSON. */
export function jsonAnswer<const Status extends 200 | 201 | 202, Schema extends z.ZodType>(
  status: Status,
  schema: Schema,
  what: string,
) {
  return { status, schema, what, mediaType: 'application/json' } as const
}

/** Row part of a route that answers a file; its handler says name and media type. */
export function fileAnswer(what: string) {
  return { status: 200, schema: z.unknown(), what, mediaType: 'application/octet-stream' } as const
}
