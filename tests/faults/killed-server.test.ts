import { randomUUID } from 'node:crypto'
import { expect, it } from 'vitest'
import { ACTING_ROLE_HEADER } from '#contract/actor.ts'
import { buildRequest } from '#contract/build-request.ts'
import { readAnswer } from '#contract/read-answer.ts'
import type { Route, RouteInput, RouteOutput } from '#contract/route.ts'
import { routes } from '#contract/routes.ts'
import { hasEnded } from '#contract/work.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import type { Place } from '../../server/store/place.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { temporaryPlaces } from '../store/temporary-places.ts'
import { enterDemo } from '../support/enter-demo.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { addressOf, type RunningProgram, runServer } from './run-program.ts'

const { freshPlace } = temporaryPlaces()

const FEEDER = 'written'
const WRITERS = 4
const KILL_AFTER_WRITES = 120
const IMPORTS = 3

interface Client {
  call<R extends Route>(route: R, input: RouteInput<R>): Promise<RouteOutput<R>>
}

function run({ dataFolder, databaseUrl = '' }: Place): RunningProgram {
  return runServer({ CROSSARM_DATA: dataFolder, DATABASE_URL: databaseUrl })
}

async function clientOf(running: RunningProgram): Promise<Client> {
  const address = await addressOf(running)
  const cookie = await enterDemo(address, 'coordinator')
  return {
    call: async (route, input) => {
      const headers = { cookie, [ACTING_ROLE_HEADER]: 'coordinator' }
      const { path, ...request } = buildRequest(route, input, headers)
      return readAnswer(route, await fetch(address + path, request))
    },
  }
}

const layersOf = (id: string) => layersOfFeeder(smallFeeder({ id }))

/** Records items until the server is gone; `answered` are those that it said it has. */
async function keepWriting({ call }: Client, answered: Set<string>, onAnswer: () => void) {
  const body = { pole: 'P2', kind: 'cover', what: 'cover', state: 'on', on: '2026-05-01' } as const
  for (;;) {
    const added = await call(routes.addProtection, {
      params: { feederId: FEEDER },
      body,
    }).catch(() => null)
    if (!added) return
    answered.add(added.id)
    onAnswer()
  }
}

/** Takes feeders in, each in the background. */
async function keepImporting({ call }: Client, accepted: Map<string, string>) {
  for (let number = 1; number <= IMPORTS; number++) {
    const id = `imported-${number}`
    const body = { layers: layersOf(id), workId: randomUUID() }
    const started = await call(routes.startImport, { body }).catch(() => null)
    if (!started) return
    accepted.set(id, started.workId)
  }
}

it('has every write that it answered, and ends every import that it accepted, after it was killed', async () => {
  const place = await freshPlace('killed-server')
  const first = run(place)
  const client = await clientOf(first)
  await client.call(routes.takeInFeeder, { body: { layers: layersOf(FEEDER) } })
  const answered = new Set<string>()
  const accepted = new Map<string, string>()
  const onAnswer = () => {
    if (answered.size >= KILL_AFTER_WRITES && accepted.size === IMPORTS) first.child.kill('SIGKILL')
  }
  await Promise.all([
    keepImporting(client, accepted),
    ...Array.from({ length: WRITERS }, () => keepWriting(client, answered, onAnswer)),
  ])
  expect(await first.ended).toBe('SIGKILL')
  expect(answered.size).toBeGreaterThanOrEqual(KILL_AFTER_WRITES)

  const second = run(place)
  const { call } = await clientOf(second)
  const kept = await call(routes.listProtections, { params: { feederId: FEEDER } })
  const ids = new Set(kept.map(({ id }) => id))
  expect([...answered].filter((id) => !ids.has(id))).toEqual([])
  // What was under way when it died may be there too, one for each who wrote.
  expect(ids.size - answered.size).toBeLessThanOrEqual(WRITERS)
  for (const [id, workId] of accepted) {
    await expectTakenInOnce(call, id, workId)
  }
  second.child.kill('SIGTERM')
  await second.ended
  const { chain, database, rows } = await verifyRecord(place)
  expect([chain.fault, database, rows]).toEqual([null, [], []])
}, 240_000)

async function expectTakenInOnce(call: Client['call'], id: string, workId: string) {
  let work = await call(routes.getWork, { params: { workId } })
  while (!hasEnded(work.state)) {
    await new Promise((resolve) => setTimeout(resolve, 200))
    work = await call(routes.getWork, { params: { workId } })
  }
  expect(work).toMatchObject({ state: 'done', result: { id, version: 1 } })
  const { version } = await call(routes.getFeeder, { params: { feederId: id } })
  expect(version).toBe(1)
}
