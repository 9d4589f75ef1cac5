import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Actor } from '#contract/actor.ts'
import { buildRequest } from '#contract/build-request.ts'
import type { Problem } from '#contract/problem.ts'
import { ProblemError, readAnswer } from '#contract/read-answer.ts'
import type { Route, RouteInput, RouteOutput } from '#contract/route.ts'
import { writeFeederFolder } from '../../server/layer-files/feeder-folder.ts'
import { type RunningServer, type ServerOptions, startServer } from '../../server/main.ts'
import { smallFeeder } from '../support/small-feeder.ts'

export const PLANNER: Actor = { id: 'pat', role: 'planner' }
export const COORDINATOR: Actor = { id: 'robin', role: 'coordinator' }
export const CREW: Actor = { id: 'sam', role: 'crew' }

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

export interface TestServer extends RunningServer {
  readonly folder: string
  /** Calls a route and gives the parsed answer; a problem answer is thrown. */
  call<R extends Route>(route: R, input: RouteInput<R>, actor?: Actor): Promise<RouteOutput<R>>
  /** Calls a route that is expected to answer a problem. */
  problem<R extends Route>(route: R, input: RouteInput<R>, actor?: Actor): Promise<Problem>
}

/** Folder with shipped data of its own: the small feeder in its place, and nothing else. */
export async function makeGeodata(folder: string): Promise<string> {
  const geodata = join(folder, 'geodata')
  await writeFeederFolder(join(geodata, 'demo', SMALL), smallFeeder({ place: PLACE }))
  await mkdir(join(geodata, 'demo/land'), { recursive: true })
  await writeFile(join(geodata, 'demo/land/creek.geojson'), JSON.stringify(CREEK))
  return geodata
}

/** A real server on a free port, with a database and screens of its own in a temporary folder. */
export async function startTestServer(options: ServerOptions = {}): Promise<TestServer> {
  const folder = await mkdtemp(join(tmpdir(), 'crossarm-http-'))
  const server = await startServer({
    port: 0,
    dataFolder: join(folder, 'data'),
    geodataFolder: await makeGeodata(folder),
    ...options,
  })
  const call: TestServer['call'] = async (route, input, actor = PLANNER) => {
    const { method, path, headers, body } = buildRequest(route, input, actor)
    return readAnswer(route, await fetch(server.address + path, { method, headers, body }))
  }
  return {
    ...server,
    folder,
    call,
    problem: (route, input, actor) => problemOf(call(route, input, actor)),
    stop: async () => {
      await server.stop()
      await rm(folder, { recursive: true, force: true })
    },
  }
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
