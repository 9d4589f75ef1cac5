import type { Context } from 'hono'
import type { PreparedAnswer } from './prepared-answers.ts'

/**
 * Sends a prepared answer, or only that it is still the one that the asker has (RFC 9110, sections
 * 8.8.3 and 13.1.2). The tag is weak, since it stands for the folded and the plain form alike.
 */
export function preparedResponse(context: Context, answer: PreparedAnswer): Response {
  const tag = `W/"${answer.tag}"`
  const headers = { etag: tag, 'cache-control': 'private, no-cache', vary: 'accept-encoding' }
  const held = context.req.header('if-none-match')?.split(',') ?? []
  if (held.some((each) => each.trim() === tag)) return context.body(null, 304, headers)
  const isFolded = /\bgzip\b/.test(context.req.header('accept-encoding') ?? '')
  const content = isFolded ? answer.gzipped : answer.plain
  return context.body(content, 200, {
    ...headers,
    'content-type': 'application/json',
    'content-length': String(content.length),
    ...(isFolded && { 'content-encoding': 'gzip' }),
  })
}
