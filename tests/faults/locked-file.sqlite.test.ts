import { join } from 'node:path'
import SqliteFile from 'better-sqlite3'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { DATABASE_FILE } from '../../server/store/place.ts'
import { COORDINATOR, SMALL, startTestServer, type TestServer } from '../http/test-server.ts'

const PLACE = { params: { feederId: SMALL } }
const BODY = { pole: 'P2', kind: 'cover', what: 'cover', state: 'on', on: '2026-05-01' } as const

let server: TestServer
beforeEach(async () => {
  server = await startTestServer()
  await server.call(routes.listProtections, PLACE, COORDINATOR)
})
afterEach(() => server.stop())

it('says that the file is taken, goes on reading meanwhile, and writes again afterwards', async () => {
  const other = new SqliteFile(join(server.folder, 'data', DATABASE_FILE))
  other.exec('begin immediate')
  const refused = server.problem(routes.addProtection, { ...PLACE, body: BODY }, COORDINATOR)
  let isRefused = false
  void refused.finally(() => {
    isRefused = true
  })
  const before = await server.call(routes.listProtections, PLACE, COORDINATOR)
  expect(isRefused).toBe(false)
  const problem = await refused
  expect(problem).toMatchObject({ status: 503, code: 'unavailable' })
  expect(problem.detail).toContain('Another program has the database file')
  other.exec('rollback')
  other.close()
  const added = await server.call(routes.addProtection, { ...PLACE, body: BODY }, COORDINATOR)
  const after = await server.call(routes.listProtections, PLACE, COORDINATOR)
  const ids = (records: typeof after) => records.map(({ id }) => id).sort()
  expect(ids(after)).toEqual([...ids(before), added.id].sort())
})
