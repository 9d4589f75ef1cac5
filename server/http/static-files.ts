import { existsSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { serveStatic } from '@hono/node-server/serve-static'
import type { OpenAPIHono } from '@hono/zod-openapi'
import type { MiddlewareHandler } from 'hono'
import { Refusal } from '../services/refusal.ts'

/** Files under here carry a fingerprint of their content in the name. */
const FINGERPRINTED = '/assets/'
const KEEP_FOREVER = 'public, max-age=31536000, immutable'
const ASK_EACH_TIME = 'no-cache'

const FILE_ENDING = /\.[a-z0-9]+$/i

/**
 * Serves the built screens. An address without a file ending is a screen's own and gets the
 * page, which finds its way from there.
 */
export function serveScreens(app: OpenAPIHono, webFolder: string): void {
  if (existsSync(webFolder)) app.get('*', caching, serveStatic({ root: webFolder }))
  app.get('*', async (context) => {
    const { path } = context.req
    if (FILE_ENDING.test(path)) throw new Refusal('not-found', `There is nothing at ${path}.`)
    context.header('cache-control', ASK_EACH_TIME)
    return context.html(await readPage(webFolder))
  })
}

const caching: MiddlewareHandler = async (context, next) => {
  await next()
  if (!context.res.ok) return
  const isFingerprinted = context.req.path.startsWith(FINGERPRINTED)
  context.header('cache-control', isFingerprinted ? KEEP_FOREVER : ASK_EACH_TIME)
}

async function readPage(webFolder: string): Promise<string> {
  try {
    return await readFile(join(webFolder, 'index.html'), 'utf8')
  } catch {
    throw new Refusal('not-found', 'The screens are not built. Run "npm run build" first.')
  }
}
