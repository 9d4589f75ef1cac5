import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ACTING_ROLE_HEADER } from '#contract/actor.ts'
import { enterDemo } from '../support/enter-demo.ts'
import { freshDatabase } from '../support/fresh-database.ts'
import { START } from '../support/start-server.ts'
import { openRaw, requestHead } from './raw-connection.ts'

const PROJECT_FOLDER = fileURLToPath(new URL('../..', import.meta.url))

let dataFolder: string
let program: ChildProcess
let ended: Promise<unknown[]>
let address: string
let headers: Record<string, string>
let drop: () => Promise<void>
beforeEach(async () => {
  dataFolder = await mkdtemp(join(tmpdir(), 'crossarm-stop-'))
  const fresh = await freshDatabase()
  drop = fresh.drop
  const started = spawn(process.execPath, [START], {
    cwd: PROJECT_FOLDER,
    env: {
      ...process.env,
      HOST: '',
      PORT: '0',
      CROSSARM_DATA: dataFolder,
      CROSSARM_LOG: 'info',
      DATABASE_URL: fresh.databaseUrl ?? '',
    },
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  program = started
  ended = once(started, 'exit')
  const lines = createInterface({ input: started.stdout })
  const [line] = await once(lines, 'line')
  address = /http:\/\/127\.0\.0\.1:\d+/.exec(String(line))?.[0] ?? ''
  headers = { cookie: await enterDemo(address, 'planner'), [ACTING_ROLE_HEADER]: 'planner' }
})
afterEach(async () => {
  program.kill('SIGKILL')
  await ended
  await drop()
  await rm(dataFolder, { recursive: true, force: true })
})

/** A stream of changes that has begun; resolves when the server ends it. */
async function followChanges(): Promise<{ ended: Promise<unknown> }> {
  const answer = await fetch(`${address}/api/changes`, { headers })
  const reader = answer.body?.getReader()
  await reader?.read()
  const readOn = async () => {
    while (!(await reader?.read())?.done);
  }
  return { ended: readOn() }
}

const BODY = '{"taps":"fixed"}'

describe('on a signal to stop', () => {
  it('streams end, requests under way finish, no new one is taken, and the program ends well', async () => {
    const [question, ready, stream] = await Promise.all([
      openRaw(address),
      openRaw(address),
      followChanges(),
    ])
    const write = {
      ...headers,
      'content-type': 'application/json',
      'content-length': String(BODY.length),
    }
    question.send(`${requestHead('POST', '/api/feeders/thimble/voltage', address, write)}\r\n`)
    question.send(BODY.slice(0, 5))
    ready.send(requestHead('GET', '/api/ready', address))
    program.kill('SIGTERM')
    await stream.ended
    await expect(fetch(`${address}/api/live`)).rejects.toThrow()
    ready.send('\r\n')
    expect(await ready.closed).toMatch(/^HTTP\/1\.1 503 .*"code":"unavailable"/s)
    question.send(BODY.slice(5))
    expect(await question.closed).toMatch(/^HTTP\/1\.1 200 .*"solutions":/s)
    expect(await ended).toEqual([0, null])
  })

  it('a second signal ends the program at once', async () => {
    const [stuck, stream] = await Promise.all([openRaw(address), followChanges()])
    stuck.send(requestHead('GET', '/api/live', address))
    program.kill('SIGTERM')
    await stream.ended
    program.kill('SIGTERM')
    expect(await ended).toEqual([1, null])
  })
})
