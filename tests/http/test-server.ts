import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { DemoRole } from '#contract/account.ts'
import { ACTING_ROLE_HEADER, type Actor } from '#contract/actor.ts'
import { buildRequest } from '#contract/build-request.ts'
import type { Problem } from '#contract/problem.ts'
import { ProblemError, readAnswer } from '#contract/read-answer.ts'
import type { Route, RouteInput, RouteOutput } from '#contract/route.ts'
import { writeFeederFolder } from '../../server/layer-files/feeder-folder.ts'
import { type RunningServer, type ServerOptions, startServer } from '../../server/main.ts'
import { enterDemo } from '../support/enter-demo.ts'
import { tabledDatabase } from '../support/fresh-database.ts'
import { smallFeeder } from '../support/small-feeder.ts'

const demo = (role: DemoRole) => ({ id: `demo-${role}`, role })

/** People of the demo, as the record names them. */
export const PLANNER = demo('planner')
export const COORDINATOR = demo('coordinator')
export const CREW = demo('crew')
export const SUPERVISOR = demo('supervisor')
export const READER = demo('reader')

export const SMALL = 'small'
export const PLACE = 'test-valley'

const CREEK = {
  type: 'FeatureCollection',
  features: [
    {
      type: 'Feature',
      geometry: {
        type: 'LineString',
        coordinates: [
          [-107, 43.01],
          [-106.9, 43.02],
        ],
      },
      properties: { name: 'Test Creek' },
    },
  ],
}

/** Who calls: one of the demo's people, nobody, or whoever the headers make it. */
export type As = Actor | 'nobody' | Readonly<Record<string, string>>

export interface TestServer extends RunningServer {
  readonly folder: string
  /** Headers that make a request one of theirs; a person of the demo enters once. */
  headersOf(as: As): Promise<Record<string, string>>
  /** Calls a route, as the planner if nobody is named; a problem answer is thrown. */
  call<R extends Route>(route: R, input: RouteInput<R>, as?: As): Promise<RouteOutput<R>>
  /** Calls a route that is expected to answer a problem. */
  problem<R extends Route>(route: R, input: RouteInput<R>, as?: As): Promise<Problem>
}

/** Folder with shipped data of its own: the small feeder in its place, and nothing else. */
export async function makeGeodata(folder: string): Promise<string> {
  const geodata = join(folder, 'geodata')
  await writeFeederFolder(join(geodata, 'demo', SMALL), smallFeeder({ place: PLACE }))
  await mkdir(join(geodata, 'demo/land'), { recursive: true })
  await writeFile(join(geodata, 'demo/land/creek.geojson'), JSON.stringify(CREEK))
  return geodata
}

/**
 * A real server on a free port, with a database and screens of its own. Where the caller names the
 * data folder, the database outlives the server, so that another can be started on it.
 */
export async function startTestServer(options: ServerOptions = {}): Promise<TestServer> {
  const folder = await mkdtemp(join(tmpdir(), 'crossarm-http-'))
  const fresh = options.dataFolder ? null : await tabledDatabase()
  const server = await startServer({
    port: 0,
    dataFolder: join(folder, 'data'),
    geodataFolder: await makeGeodata(folder),
    ...(fresh?.databaseUrl && { databaseUrl: fresh.databaseUrl }),
    ...options,
  })
  const headersOf = enteringOnce(server.address)
  const call: TestServer['call'] = async (route, input, as = PLANNER) => {
    const { path, ...request } = buildRequest(route, input, await headersOf(as))
    return readAnswer(route, await fetch(server.address + path, request))
  }
  return {
    ...server,
    folder,
    headersOf,
    call,
    problem: (route, input, as) => problemOf(call(route, input, as)),
    stop: async () => {
      await server.stop()
      await fresh?.drop()
      await rm(folder, { recursive: true, force: true })
    },
  }
}

function enteringOnce(address: string): TestServer['headersOf'] {
  const entered = new Map<string, Promise<string>>()
  return async (as) => {
    if (as === 'nobody') return {}
    if (!isActor(as)) return { ...as }
    const cookie = entered.get(as.role) ?? enterDemo(address, as.role as DemoRole)
    entered.set(as.role, cookie)
    return { cookie: await cookie, [ACTING_ROLE_HEADER]: as.role }
  }
}

function isActor(as: Exclude<As, 'nobody'>): as is Actor {
  return 'role' in as && 'id' in as
}

async function problemOf(answer: Promise<unknown>): Promise<Problem> {
  try {
    await answer
  } catch (error) {
    if (error instanceof ProblemError) return error.problem
    throw error
  }
  throw new Error('Expected a problem answer, got a good one.')
}
