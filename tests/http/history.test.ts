import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildRequest } from '#contract/build-request.ts'
import type { HistoryEntry } from '#contract/history.ts'
import type { RouteInput } from '#contract/route.ts'
import { routes } from '#contract/routes.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { hashOfEntry } from '../../server/store/history-chain.ts'
import { type FreshDatabase, freshDatabase } from '../support/fresh-database.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { type Administrator, enterAdministrator } from './enter-administrator.ts'
import {
  type As,
  COORDINATOR,
  CREW,
  PLANNER,
  READER,
  SMALL,
  SUPERVISOR,
  startTestServer,
  type TestServer,
} from './test-server.ts'

let folder: string
let fresh: FreshDatabase
let server: TestServer
let administrator: Administrator
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'crossarm-history-'))
  fresh = await freshDatabase()
  const { databaseUrl } = fresh
  const place = { dataFolder: join(folder, 'data'), ...(databaseUrl && { databaseUrl }) }
  server = await startTestServer(place)
  administrator = await enterAdministrator(server.address, place)
})
afterAll(async () => {
  await server.stop()
  await fresh.drop()
  await rm(folder, { recursive: true, force: true })
})

const params = { feederId: SMALL }
const GUARD = {
  pole: 'P4',
  kind: 'guard' as const,
  what: 'arm guard',
  state: 'planned' as const,
  on: '2026-05-01',
}

const addGuard = (body: RouteInput<typeof routes.addProtection>['body'] = GUARD) =>
  server.call(routes.addProtection, { params, body }, COORDINATOR)

async function deletedGuard(what = GUARD.what) {
  const added = await addGuard({ ...GUARD, what })
  const input = { params: { ...params, protectionId: added.id }, query: { version: 1 } }
  return server.call(routes.deleteProtection, input, COORDINATOR)
}

const purgeOf = (subjectId: string, version: number) => ({
  body: { subject: 'protection' as const, ...params, subjectId, version, reason: 'Typed twice.' },
})

async function takeOut(query: RouteInput<typeof routes.takeOutHistory>['query'], as: As) {
  const headers = await server.headersOf(as)
  const { path, ...request } = buildRequest(routes.takeOutHistory, { query }, headers)
  const answer = await fetch(server.address + path, request)
  return { answer, text: await answer.text() }
}

describe('the history of a thing', () => {
  it('tells every change with who and when, and closes each by a hash', async () => {
    const added = await addGuard()
    const input = { params: { ...params, protectionId: added.id } }
    const body = { ...GUARD, state: 'on' as const, version: 1 }
    const changed = await server.call(routes.changeProtection, { ...input, body }, CREW)
    const { entries } = await server.call(routes.getHistory, {
      params: { subject: 'protection', subjectId: added.id },
      query: params,
    })
    expect(entries).toEqual([
      expect.objectContaining({ what: 'added', version: 1, before: null, after: added }),
      expect.objectContaining({
        what: 'changed',
        version: 2,
        actorId: CREW.id,
        actorRole: 'crew',
        at: changed.changedAt,
        before: added,
        after: changed,
      }),
    ])
  })

  it('says which thing the record never held, and asks which feeder where there are two', async () => {
    const nothing = { params: { subject: 'proposal' as const, subjectId: 'nobody' } }
    expect((await server.problem(routes.getHistory, nothing)).code).toBe('not-found')
    const layers = layersOfFeeder(smallFeeder({ id: 'twin' }))
    await server.call(routes.takeInFeeder, { body: { layers } })
    const cover = { params: { subject: 'protection' as const, subjectId: 'cover-1' } }
    const problem = await server.problem(routes.getHistory, cover)
    expect(problem.faults?.map(({ at }) => at)).toEqual(['query.feederId'])
    const { entries } = await server.call(routes.getHistory, { ...cover, query: params })
    expect(entries.map(({ feederId }) => feederId)).toEqual([SMALL])
  })

  it('is not for readers, and that of people only for who manages them', async () => {
    const feeder = { params: { subject: 'feeder' as const, subjectId: SMALL } }
    expect((await server.problem(routes.getHistory, feeder, READER)).code).toBe('not-allowed')
    const person = { params: { subject: 'person' as const, subjectId: administrator.id } }
    expect((await server.problem(routes.getHistory, person, SUPERVISOR)).code).toBe('not-allowed')
    const { entries } = await server.call(routes.getHistory, person, administrator.headers)
    expect(entries[0]).toMatchObject({ what: 'added', feederId: null })
  })
})

describe('the history taken out', () => {
  it('as JSON lines can be checked by anybody, entry by entry', async () => {
    await addGuard()
    const { answer, text } = await takeOut({ as: 'json-lines' }, SUPERVISOR)
    expect(answer.headers.get('content-type')).toBe('application/x-ndjson')
    expect(answer.headers.get('content-disposition')).toContain('crossarm-history.jsonl')
    const lines = text
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as HistoryEntry)
    expect(lines.length).toBeGreaterThan(2)
    const unbroken = lines.map((line, index) => line.previousHash === lines[index - 1]?.hash)
    expect(unbroken.slice(1)).not.toContain(false)
    const withContent = lines.filter(({ subject }) => subject !== 'person')
    for (const { hash, ...line } of withContent) expect(hashOfEntry(line)).toBe(hash)
  })

  it('as CSV keeps a spreadsheet from running what people typed', async () => {
    const formula = '=cmd|"/c calc"!A1, then\r\n"more"'
    await addGuard({ ...GUARD, note: formula })
    const proposalLike = await deletedGuard('+SUM(A1)')
    await server.call(
      routes.purge,
      { body: { ...purgeOf(proposalLike.id, 2).body, reason: '=HYPERLINK("x")' } },
      administrator.headers,
    )
    const { answer, text } = await takeOut({ feederId: SMALL }, SUPERVISOR)
    expect(answer.headers.get('content-type')).toContain('text/csv')
    const [header, ...records] = parseCsv(text)
    expect(header).toEqual([
      ...['seq', 'subject', 'feeder_id', 'subject_id', 'version', 'what', 'at', 'device_at'],
      ...['actor_id', 'actor_role', 'reason', 'before', 'after', 'previous_hash', 'hash'],
    ])
    for (const record of records) {
      expect(record).toHaveLength(header!.length)
      for (const cell of record) expect(cell).not.toMatch(/^[=+\-@\t\r]/)
    }
    const afters = records.map((record) => JSON.parse(record[12] || 'null') as { note?: string })
    expect(afters.map((after) => after?.note)).toContain(formula)
    expect(records.map((record) => record[10])).toContain(`'=HYPERLINK("x")`)
  })

  it('names nobody but by their id', async () => {
    for (const as of ['csv', 'json-lines'] as const) {
      const { text } = await takeOut({ as }, administrator.headers)
      expect(text).toContain(administrator.id)
      expect(text).not.toMatch(/Alex Admin|alex@utility/)
    }
  })

  it('can be of one feeder or one kind of thing alone', async () => {
    const layers = layersOfFeeder(smallFeeder({ id: 'other' }))
    await server.call(routes.takeInFeeder, { body: { layers } })
    const query = { as: 'json-lines' as const, feederId: 'other', subject: 'protection' as const }
    const { text } = await takeOut(query, SUPERVISOR)
    const entries = text
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as HistoryEntry)
    expect(entries.map(({ subject, subjectId }) => [subject, subjectId])).toEqual([
      ['protection', 'cover-1'],
    ])
  })

  it('comes whole when it is long', async () => {
    const feeder = smallFeeder({ id: 'long' })
    const numbers = Array.from({ length: 1100 }, (_, index) => index + 1)
    feeder.protections = numbers.map((number) => ({ ...GUARD, id: `guard-${number}` }))
    await server.call(routes.takeInFeeder, { body: { layers: layersOfFeeder(feeder) } })
    const { text } = await takeOut({ as: 'json-lines', feederId: 'long' }, SUPERVISOR)
    const ids = text
      .trimEnd()
      .split('\n')
      .map((line) => (JSON.parse(line) as HistoryEntry).subjectId)
    expect(ids).toEqual(['long', ...numbers.map((number) => `guard-${number}`)])
  })

  it('is for supervisors and administrators', async () => {
    for (const as of [PLANNER, COORDINATOR, CREW, READER]) {
      expect((await takeOut({}, as)).answer.status).toBe(403)
    }
  })
})

describe('what was deleted', () => {
  it('is listed with who deleted it, and no longer once it is restored', async () => {
    const deleted = await deletedGuard('old guard')
    const listed = await server.call(routes.listDeleted, { params })
    expect(listed[0]).toEqual({
      subject: 'protection',
      feederId: SMALL,
      subjectId: deleted.id,
      what: 'old guard on pole P4',
      version: 2,
      deletedAt: deleted.deletedAt,
      deletedBy: COORDINATOR.id,
    })
    const input = { params: { ...params, protectionId: deleted.id }, query: { version: 2 } }
    await server.call(routes.restoreProtection, input, COORDINATOR)
    const left = await server.call(routes.listDeleted, { params })
    expect(left.map(({ subjectId }) => subjectId)).not.toContain(deleted.id)
  })

  it('is purged by an administrator, who says why; what the history says stays', async () => {
    const { id } = await deletedGuard('mistake')
    const purge = purgeOf(id, 2)
    expect(await server.call(routes.purge, purge, administrator.headers)).toEqual({ done: true })
    const listed = await server.call(routes.listDeleted, { params })
    expect(listed.map(({ subjectId }) => subjectId)).not.toContain(id)
    const input = { params: { ...params, protectionId: id }, query: { version: 3 } }
    const restoring = await server.problem(routes.restoreProtection, input, COORDINATOR)
    expect(restoring.code).toBe('not-found')
    const { entries } = await server.call(routes.getHistory, {
      params: { subject: 'protection', subjectId: id },
    })
    expect(entries.map(({ what }) => what)).toEqual(['added', 'deleted', 'purged'])
    expect(entries[2]).toMatchObject({
      version: 3,
      reason: 'Typed twice.',
      after: null,
      actorId: administrator.id,
      actorRole: 'administrator',
    })
  })

  it('is not purged while files are attached to it, and gets none back afterwards', async () => {
    const { id } = await addGuard({ ...GUARD, what: 'photographed' })
    const query = { attachedTo: 'protection', attachedToId: id, fileName: 'report.pdf' } as const
    const file = new Blob(['%PDF-1.7\n%%EOF\n'])
    const attached = await server.call(routes.attach, { params, query, file }, COORDINATOR)
    const guard = { params: { ...params, protectionId: id }, query: { version: 1 } }
    await server.call(routes.deleteProtection, guard, COORDINATOR)
    const problem = await server.problem(routes.purge, purgeOf(id, 2), administrator.headers)
    expect(problem.code).toBe('wrong-state')
    expect(problem.detail).toContain('attached to it')
    const input = { params: { attachmentId: attached.id }, query: { version: 1 } }
    await server.call(routes.deleteAttachment, input, COORDINATOR)
    await server.call(routes.purge, purgeOf(id, 2), administrator.headers)
    const again = { ...input, query: { version: 2 } }
    const late = await server.problem(routes.restoreAttachment, again, COORDINATOR)
    expect(late).toMatchObject({ status: 409, code: 'wrong-state' })
    expect(late.detail).toBe(
      'The guard, cover or perch that the file was attached to was removed for good, so the file cannot be brought back to it.',
    )
  })

  it('is purged by nobody else, not while it stands, not unseen and not without a reason', async () => {
    const standing = await addGuard()
    const asAdministrator = administrator.headers
    const early = await server.problem(routes.purge, purgeOf(standing.id, 1), asAdministrator)
    expect(early).toMatchObject({ status: 409, code: 'wrong-state' })
    const { id } = await deletedGuard()
    const stale = await server.problem(routes.purge, purgeOf(id, 1), asAdministrator)
    expect(stale).toMatchObject({ status: 409, code: 'stale-version', current: { version: 2 } })
    const missing = await server.problem(routes.purge, purgeOf('nobody', 1), asAdministrator)
    expect(missing.code).toBe('not-found')
    const silent = { body: { ...purgeOf(id, 2).body, reason: ' ' } }
    const problem = await server.problem(routes.purge, silent, asAdministrator)
    expect(problem.faults?.map(({ at }) => at)).toEqual(['body.reason'])
    for (const as of [PLANNER, COORDINATOR, CREW, SUPERVISOR, READER]) {
      expect((await server.problem(routes.purge, purgeOf(id, 2), as)).code).toBe('not-allowed')
    }
  })
})

/** Records of CSV by the rules of RFC 4180, section 2, as another program would read them. */
function parseCsv(text: string): string[][] {
  const records: string[][] = []
  let record: string[] = []
  const field = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n|$)/y
  while (field.lastIndex < text.length) {
    const [, quoted, plain = '', end] = field.exec(text) ?? []
    if (end === undefined) throw new Error(`No field of CSV at ${field.lastIndex}.`)
    record.push(quoted === undefined ? plain : quoted.replaceAll('""', '"'))
    if (end === ',') continue
    records.push(record)
    record = []
  }
  return records
}
