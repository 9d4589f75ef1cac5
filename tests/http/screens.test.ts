import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { startTestServer, type TestServer } from './test-server.ts'

const PAGE = '<!doctype html><title>Crossarm</title>'
const SCRIPT = `export const words = '${'word '.repeat(1000)}'`

let server: TestServer
let webFolder: string
beforeAll(async () => {
  webFolder = await mkdtemp(join(tmpdir(), 'crossarm-web-'))
  await mkdir(join(webFolder, 'assets'))
  await writeFile(join(webFolder, 'index.html'), PAGE)
  await writeFile(join(webFolder, 'mark.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>')
  await writeFile(join(webFolder, 'assets/app-1a2b3c.js'), SCRIPT)
  await writeFile(join(webFolder, 'service-worker.js'), SCRIPT)
  await writeFile(join(webFolder, 'manifest.webmanifest'), '{"name":"Crossarm"}')
  server = await startTestServer({ webFolder })
})
afterAll(async () => {
  await server.stop()
  await rm(webFolder, { recursive: true, force: true })
})

const get = (path: string) => fetch(server.address + path)

it.each(['/', '/planner', '/crew/poles/2-418'])('gives the page at %s', async (path) => {
  const answer = await get(path)
  expect(await answer.text()).toBe(PAGE)
  expect(answer.headers.get('content-type')).toMatch(/^text\/html/)
  expect(answer.headers.get('cache-control')).toBe('no-cache')
})

it('lets a browser keep what carries a fingerprint, and nothing else', async () => {
  const script = await get('/assets/app-1a2b3c.js')
  expect(await script.text()).toBe(SCRIPT)
  expect(script.headers.get('content-type')).toMatch(/^text\/javascript/)
  expect(script.headers.get('cache-control')).toBe('public, max-age=31536000, immutable')
  expect((await get('/mark.svg')).headers.get('cache-control')).toBe('no-cache')
})

it('has a browser ask each time for the worker that keeps the pages, and knows the manifest', async () => {
  const worker = await get('/service-worker.js')
  expect(worker.headers.get('content-type')).toMatch(/^text\/javascript/)
  expect(worker.headers.get('cache-control')).toBe('no-cache')
  const manifest = await get('/manifest.webmanifest')
  expect(manifest.headers.get('content-type')).toMatch(/^application\/manifest\+json/)
  expect(manifest.headers.get('cache-control')).toBe('no-cache')
})

it('compresses what is worth it', async () => {
  const script = await get('/assets/app-1a2b3c.js')
  expect(script.headers.get('content-encoding')).toBe('gzip')
  expect((await get('/api/openapi.json')).headers.get('content-encoding')).toBe('gzip')
  expect((await get('/api/ready')).headers.get('content-encoding')).toBeNull()
})

it('says that a file is not there instead of giving the page', async () => {
  const answer = await get('/assets/old-9z8y7x.js')
  expect(answer.status).toBe(404)
  expect(answer.headers.get('content-type')).toBe('application/problem+json')
  expect(answer.headers.get('cache-control')).toBe('no-store')
})

it('gives nothing from outside its folder', async () => {
  for (const path of ['/../package.json', '/%2e%2e/package.json', '/assets/..%2f..%2fx.json']) {
    expect((await get(path)).status).toBe(404)
  }
})
