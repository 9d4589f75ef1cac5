import type { Context } from 'hono'
import type { FileAnswer } from './handlers.ts'

/**
 * Answers a file. It is never run or rendered as a page of this server: its type is not guessed,
 * and a policy of its own forbids everything (Content Security Policy Level 3, `sandbox`).
 */
export function fileResponse(context: Context, file: FileAnswer): Response {
  const { mediaType, fileName, content, sizeBytes } = file
  return context.body(content, 200, {
    'content-type': mediaType,
    'content-disposition': fileName === undefined ? 'inline' : dispositionOf(fileName),
    'content-security-policy': "default-src 'none'; sandbox",
    'cache-control': 'private, no-cache',
    ...(sizeBytes !== undefined && { 'content-length': String(sizeBytes) }),
  })
}

/** After RFC 6266 and RFC 8187: plain characters for old clients, all of them for the others. */
function dispositionOf(fileName: string): string {
  const plain = fileName.replaceAll(/[^\w. -]/g, '_')
  const encoded = encodeURIComponent(fileName).replaceAll(/['()*]/g, percent)
  return `attachment; filename="${plain}"; filename*=UTF-8''${encoded}`
}

function percent(character: string): string {
  return `%${character.charCodeAt(0).toString(16).toUpperCase()}`
}
