/** The body of what an item of the outbox sends; undefined where it has none. */
export function bodyOfInput(input: unknown): unknown {
  return typeof input === 'object' && input !== null && 'body' in input ? input.body : undefined
}
