import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ProtectionRecord } from '#contract/protections.ts'
import { routes } from '#contract/routes.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import {
  COORDINATOR,
  CREW,
  PLANNER,
  SMALL,
  startTestServer,
  type TestServer,
} from './test-server.ts'

let server: TestServer
beforeAll(async () => {
  server = await startTestServer()
})
afterAll(() => server.stop())

const params = { feederId: SMALL }
const GUARD = {
  pole: 'P4',
  kind: 'guard' as const,
  what: 'arm guard',
  state: 'planned' as const,
  on: '2026-05-01',
}

function add(body = GUARD) {
  return server.call(routes.addProtection, { params, body }, COORDINATOR)
}

describe('the record of guards, covers and perches', () => {
  it('starts with what the feeder folder held', async () => {
    const [first] = await server.call(routes.listProtections, { params })
    expect(first).toMatchObject({ id: 'cover-1', pole: 'P2', state: 'on', version: 1 })
    expect(first?.changedBy.id).toBe('came-with-the-feeder')
  })

  it('adds an item that then stands on its pole in the feeder', async () => {
    const added = await add()
    expect(added).toMatchObject({ ...GUARD, version: 1, changedBy: COORDINATOR, deletedAt: null })
    const { feeder } = await server.call(routes.getFeeder, { params })
    expect(feeder.protections).toContainEqual({ ...GUARD, id: added.id })
  })

  it('changes the state and says who did it', async () => {
    const added = await add()
    const input = { params: { ...params, protectionId: added.id } }
    const body = { ...GUARD, state: 'failed' as const, note: 'chewed', version: 1 }
    const changed = await server.call(routes.changeProtection, { ...input, body }, CREW)
    expect(changed).toMatchObject({ state: 'failed', note: 'chewed', version: 2, changedBy: CREW })
  })

  it('refuses a change of an older version and gives the one that stands', async () => {
    const added = await add()
    const input = { params: { ...params, protectionId: added.id } }
    const body = { ...GUARD, what: 'first', version: 1 }
    const first = await server.call(routes.changeProtection, { ...input, body }, COORDINATOR)
    const late = { ...input, body: { ...body, what: 'second' } }
    const problem = await server.problem(routes.changeProtection, late, COORDINATOR)
    expect(problem).toMatchObject({ status: 409, code: 'stale-version' })
    expect(ProtectionRecord.parse(problem.current)).toEqual(first)
  })

  it('deletes an item, refuses to change it, and brings it back', async () => {
    const added = await add()
    const input = { params: { ...params, protectionId: added.id } }
    const stale = { ...input, query: { version: 7 } }
    expect((await server.problem(routes.deleteProtection, stale, COORDINATOR)).code).toBe(
      'stale-version',
    )
    await server.call(routes.deleteProtection, { ...input, query: { version: 1 } }, COORDINATOR)
    const listed = await server.call(routes.listProtections, { params })
    expect(listed.map(({ id }) => id)).not.toContain(added.id)
    const body = { ...GUARD, version: 2 }
    const change = await server.problem(routes.changeProtection, { ...input, body }, COORDINATOR)
    expect(change).toMatchObject({ status: 409, code: 'wrong-state' })
    const again = { ...input, query: { version: 2 } }
    const restored = await server.call(routes.restoreProtection, again, COORDINATOR)
    expect(restored).toMatchObject({ ...GUARD, version: 3, deletedAt: null })
  })

  it('tells every change of an item, oldest first', async () => {
    const added = await add()
    const input = { params: { ...params, protectionId: added.id } }
    const body = { ...GUARD, state: 'on' as const, version: 1 }
    const changed = await server.call(routes.changeProtection, { ...input, body }, CREW)
    const seen = { ...input, query: { version: 2 } }
    const deleted = await server.call(routes.deleteProtection, seen, COORDINATOR)
    const { entries: changes } = await server.call(routes.getHistory, {
      params: { subject: 'protection', subjectId: added.id },
    })
    expect(changes.map(({ before, after }) => [before, after])).toEqual([
      [null, added],
      [added, changed],
      [changed, deleted],
    ])
    expect(changes.map(({ what, actorId, actorRole }) => [what, actorId, actorRole])).toEqual([
      ['added', COORDINATOR.id, 'coordinator'],
      ['changed', CREW.id, 'crew'],
      ['deleted', COORDINATOR.id, 'coordinator'],
    ])
    expect(changes.map(({ at }) => at)).toEqual([
      added.changedAt,
      changed.changedAt,
      deleted.changedAt,
    ])
  })

  it('keeps what people recorded when new layers of the feeder are taken in', async () => {
    const input = { params: { ...params, protectionId: 'cover-1' } }
    const body = { ...GUARD, pole: 'P2', state: 'failed' as const, version: 1 }
    await server.call(routes.changeProtection, { ...input, body }, CREW)
    const feeder = smallFeeder()
    feeder.protections.push({ ...GUARD, id: 'from-file' })
    await server.call(routes.takeInFeeder, { body: { layers: layersOfFeeder(feeder) } })
    const listed = await server.call(routes.listProtections, { params })
    expect(listed.find(({ id }) => id === 'cover-1')).toMatchObject({ state: 'failed', version: 2 })
    expect(listed.find(({ id }) => id === 'from-file')).toMatchObject({ version: 1 })
  })
})

describe('what is refused', () => {
  it('a pole, an item or a feeder that is not there', async () => {
    const lost = { params, body: { ...GUARD, pole: 'P77' } }
    const problem = await server.problem(routes.addProtection, lost, COORDINATOR)
    expect(problem.faults).toEqual([{ at: 'body.pole', what: 'names no pole of the feeder' }])
    const nobody = { params: { ...params, protectionId: 'nobody' }, query: { version: 1 } }
    for (const route of [routes.deleteProtection, routes.restoreProtection] as const) {
      expect((await server.problem(route, nobody, COORDINATOR)).code).toBe('not-found')
    }
    const elsewhere = { params: { feederId: 'nowhere' } }
    expect((await server.problem(routes.listProtections, elsewhere)).code).toBe('not-found')
  })

  it('a state and a date that do not exist', async () => {
    const body = { ...GUARD, state: 'lost' as 'on', on: '2026-02-30' }
    const problem = await server.problem(routes.addProtection, { params, body }, COORDINATOR)
    expect(problem.faults?.map(({ at }) => at).sort()).toEqual(['body.on', 'body.state'])
  })

  it('a planner who records, and a crew that deletes', async () => {
    const adding = await server.problem(routes.addProtection, { params, body: GUARD }, PLANNER)
    expect(adding.code).toBe('not-allowed')
    const added = await add()
    const input = { params: { ...params, protectionId: added.id }, query: { version: 1 } }
    expect((await server.problem(routes.deleteProtection, input, CREW)).code).toBe('not-allowed')
  })
})
