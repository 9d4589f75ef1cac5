import { spawn } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import { once } from 'node:events'
import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import type { Study } from '#contract/studies.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { openSitingPool } from '../../server/background/siting-pool.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { optionsOf, startServer } from '../../server/main.ts'
import { StudyService } from '../../server/services/studies.ts'
import { CLAIM_FILE } from '../../server/store/folder-claim.ts'
import { openStore } from '../../server/store/open-store.ts'
import { DATABASE_FILE } from '../../server/store/place.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { PLANNER, SMALL, startTestServer, type TestServer } from './test-server.ts'

const SITING_WORKER = new URL('../../server/background/siting-worker.ts', import.meta.url)
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

  it('tells that a study was cut short when the server was stopped', async () => {
    const first = await start()
    const layers = layersOfFeeder(smallFeeder({ id: 'long', poles: 260 }))
    await first.call(routes.takeInFeeder, { body: { layers } })
    const input = { params: { feederId: 'long' }, body: { request: { banks: 2 as const } } }
    const { studyId } = await first.call(routes.startStudy, input)
    await stop(first)
    const second = await start()
    const study = await second.call(routes.getStudy, { params: { studyId } })
    expect(study).toMatchObject({ state: 'failed', problem: { code: 'interrupted' } })
    expect(study.endedAt).not.toBeNull()
  })

  it('tells the same of a study whose server was killed', async () => {
    await stop(await start())
    const study: Study = {
      id: 'left-behind',
      feederId: SMALL,
      feederVersion: 1,
      request: SiteRequest.parse({}),
      state: 'running',
      done: 3,
      total: 9,
      phase: 'Placing one bank',
      startedBy: PLANNER,
      startedAt: '2026-05-01T08:00:00.000Z',
      endedAt: null,
    }
    const store = await openStore(dataFolder)
    await store.studies.add(study)
    await store.close()
    const server = await start()
    const found = await server.call(routes.getStudy, { params: { studyId: study.id } })
    expect(found).toMatchObject({ state: 'failed', done: 3, problem: { code: 'interrupted' } })
  })
})

describe('a second server on the same data folder', () => {
  it('leaves the studies of the first one alone', async () => {
    const first = await start()
    const layers = layersOfFeeder(smallFeeder({ id: 'long', poles: 260 }))
    await first.call(routes.takeInFeeder, { body: { layers } })
    const input = { params: { feederId: 'long' }, body: { request: { banks: 2 as const } } }
    const { studyId } = await first.call(routes.startStudy, input)
    const second = await start()
    const { state } = await second.call(routes.getStudy, { params: { studyId } })
    expect(['queued', 'running']).toContain(state)
    const problem = await second.problem(routes.cancelStudy, { params: { studyId } })
    expect(problem.detail).toContain('runs on another server')
    const cancelled = await first.call(routes.cancelStudy, { params: { studyId } })
    expect(cancelled.state).toBe('cancelled')
  })
})

describe('stopping', () => {
  it('takes no new study, which nobody would see through', async () => {
    await stop(await start())
    const store = await openStore(dataFolder)
    const siting = openSitingPool(SITING_WORKER, 1)
    const ports = { store, siting, clock: () => new Date().toISOString(), newId: randomUUID }
    const studies = new StudyService({ ...ports, reportFault: () => undefined })
    await studies.stop()
    const late = studies.start(PLANNER, SMALL, SiteRequest.parse({}))
    await expect(late).rejects.toMatchObject({ code: 'interrupted' })
    expect(await store.studies.unfinished()).toEqual([])
    await siting.close()
    await store.close()
  })

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
    const program = spawn(process.execPath, ['--import', 'tsx', 'server/main.ts'], {
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
    expect((await readdir(dataFolder)).sort()).toEqual([DATABASE_FILE, CLAIM_FILE])
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

  it('names the setting that makes no sense', () => {
    expect(() => optionsOf({ PORT: 'http' })).toThrow('PORT must be a number')
    expect(() => optionsOf({ CROSSARM_MAP_STYLE: 'style' })).toThrow('CROSSARM_MAP_STYLE')
    expect(optionsOf({})).toEqual({})
  })
})
