import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { optionsOf, startServer } from '../../server/main.ts'
import { CLAIM_FILE } from '../../server/store/folder-claim.ts'
import { DATABASE_FILE } from '../../server/store/place.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { START } from '../support/start-server.ts'
import { readEvents } from './read-events.ts'
import { SMALL, startTestServer, type TestServer } from './test-server.ts'

const PROJECT_FOLDER = fileURLToPath(new URL('../..', import.meta.url))

let dataFolder: string
let servers: TestServer[] = []
beforeEach(async () => {
  dataFolder = await mkdtemp(join(tmpdir(), 'crossarm-data-'))
})
afterEach(async () => {
  for (const server of servers) await server.stop()
  servers = []
  await rm(dataFolder, { recursive: true, force: true })
})

async function start(): Promise<TestServer> {
  const server = await startTestServer({ dataFolder })
  servers.push(server)
  return server
}

async function stop(server: TestServer): Promise<void> {
  servers = servers.filter((other) => other !== server)
  await server.stop()
}

describe('starting again with the same data folder', () => {
  it('keeps what was recorded and adds nothing twice', async () => {
    const first = await start()
    const layers = layersOfFeeder(smallFeeder({ poles: 6 }))
    await first.call(routes.takeInFeeder, { body: { layers } })
    const before = await first.call(routes.listFeeders, {})
    await stop(first)
    const second = await start()
    expect(await second.call(routes.listFeeders, {})).toEqual(before)
    expect(before.map(({ id, version }) => [id, version])).toEqual([[SMALL, 2]])
    const protections = await second.call(routes.listProtections, { params: { feederId: SMALL } })
    expect(protections.map(({ id, version }) => [id, version])).toEqual([['cover-1', 1]])
  })

  it('goes on with a study that was under way when the server was stopped', async () => {
    const first = await start()
    const layers = layersOfFeeder(smallFeeder({ id: 'long', poles: 260 }))
    await first.call(routes.takeInFeeder, { body: { layers } })
    const input = { params: { feederId: 'long' }, body: { request: { banks: 2 as const } } }
    const { studyId } = await first.call(routes.startStudy, input)
    await untilRunning(first, studyId)
    await stop(first)
    const second = await start()
    await untilRunning(second, studyId)
    const cancelled = await second.call(routes.cancelStudy, { params: { studyId } })
    expect(cancelled.state).toBe('cancelled')
  })
})

async function untilRunning(server: TestServer, studyId: string): Promise<void> {
  for await (const { data } of readEvents(server, studyId)) {
    if (data.state === 'running') return
  }
  throw new Error('Expected the study to run, but its stream ended.')
}

describe('stopping', () => {
  it('lets an answer under way finish', async () => {
    const server = await start()
    const input = { params: { feederId: SMALL } }
    const answers = Promise.all([
      server.call(routes.getFeeder, input),
      server.call(routes.solveVoltage, { ...input, body: { taps: 'controlled' } }),
    ])
    await server.call(routes.getReady, {})
    await stop(server)
    const [{ feeder }, { solutions }] = await answers
    expect([feeder.poles.length, solutions.length]).toEqual([5, 2])
  })
})

describe('the program', () => {
  it('prints its address, and ends cleanly on a signal', async () => {
    const program = spawn(process.execPath, [START], {
      cwd: PROJECT_FOLDER,
      env: { ...process.env, HOST: '', PORT: '0', CROSSARM_DATA: dataFolder },
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    const ended = once(program, 'exit')
    const [line] = await once(createInterface({ input: program.stdout }), 'line')
    const address = /http:\/\/127\.0\.0\.1:\d+$/.exec(String(line))?.[0]
    expect((await fetch(`${address}/api/ready`)).status).toBe(200)
    program.kill('SIGTERM')
    expect(await ended).toEqual([0, null])
    const left = [DATABASE_FILE, CLAIM_FILE, 'session-secret']
    expect((await readdir(dataFolder)).sort()).toEqual(left)
  })
})

describe('a start that cannot be', () => {
  it('says which port is taken and what to set', async () => {
    const server = await start()
    const port = Number(new URL(server.address).port)
    const other = { port, dataFolder: join(dataFolder, 'other'), geodataFolder: dataFolder }
    await expect(startServer(other)).rejects.toThrow(/port \d+: it is taken.*PORT/)
  })

  it('says which data folder cannot be used and what to set', async () => {
    const unusable = { port: 0, dataFolder: '/dev/null/data', geodataFolder: dataFolder }
    await expect(startServer(unusable)).rejects.toThrow(/\/dev\/null\/data.*CROSSARM_DATA/)
  })

  it('refuses a second server on one file, and leaves the first one be', async () => {
    const first = await start()
    await expect(startServer({ port: 0, dataFolder, geodataFolder: dataFolder })).rejects.toThrow(
      /Another server runs on it.*DATABASE_URL/,
    )
    expect(await first.call(routes.listFeeders, {})).toHaveLength(1)
  })

  it('names the setting that makes no sense', () => {
    expect(() => optionsOf({ PORT: 'http' })).toThrow('PORT must be a number')
    expect(() => optionsOf({ CROSSARM_MAP_STYLE: 'style' })).toThrow('CROSSARM_MAP_STYLE')
    expect(() => optionsOf({ CROSSARM_WORK: 'no' })).toThrow('CROSSARM_WORK')
    expect(optionsOf({ CROSSARM_WORK: 'off' })).toMatchObject({ hasWorkers: false })
    expect(optionsOf({})).not.toHaveProperty('port')
  })
})
