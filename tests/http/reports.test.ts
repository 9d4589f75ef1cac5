import { createHash } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildRequest } from '#contract/build-request.ts'
import { HistoryReportResult } from '#contract/reports.ts'
import type { RouteInput } from '#contract/route.ts'
import { routes } from '#contract/routes.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { COORDINATOR, READER, SUPERVISOR, startTestServer, type TestServer } from './test-server.ts'

let server: TestServer
beforeAll(async () => {
  server = await startTestServer()
  for (const id of ['ridge', 'valley']) {
    const body = { layers: layersOfFeeder(smallFeeder({ id })) }
    await server.call(routes.takeInFeeder, { body }, COORDINATOR)
  }
})
afterAll(() => server.stop())

type Asked = RouteInput<typeof routes.startHistoryReport>['body']

async function ended(workId: string) {
  const headers = await server.headersOf(SUPERVISOR)
  await (await fetch(`${server.address}/api/long-work/${workId}/events`, { headers })).text()
  return server.call(routes.getWork, { params: { workId } }, SUPERVISOR)
}

async function textOf(route: typeof routes.getReportFile, workId: string) {
  const headers = await server.headersOf(SUPERVISOR)
  const { path, ...request } = buildRequest(route, { params: { workId } }, headers)
  const answer = await fetch(server.address + path, request)
  expect(answer.ok).toBe(true)
  return { text: await answer.text(), headers: answer.headers }
}

async function report(body: Asked) {
  const { workId } = await server.call(routes.startHistoryReport, { body }, SUPERVISOR)
  const work = await ended(workId)
  expect(work.state).toBe('done')
  const file = await textOf(routes.getReportFile, workId)
  return { workId, work, result: HistoryReportResult.parse(work.result), ...file }
}

const lines = (text: string) => text.split('\n').filter((line) => line !== '')

describe('a report of the history', () => {
  it('is made in the background and kept as a file with its hash', async () => {
    const { result, text, headers, work } = await report({ as: 'json-lines', feederId: 'ridge' })
    expect(result.sha256).toBe(createHash('sha256').update(text).digest('hex'))
    expect(result.sizeBytes).toBe(Buffer.byteLength(text))
    expect(work).toMatchObject({ done: result.entries, total: result.entries })
    const entries = lines(text).map((line) => JSON.parse(line) as { feederId: string })
    expect(entries).toHaveLength(result.entries)
    expect(new Set(entries.map(({ feederId }) => feederId))).toEqual(new Set(['ridge']))
    expect(headers.get('content-disposition')).toContain('history-ridge.jsonl')
    expect(headers.get('content-type')).toBe('application/x-ndjson')
  })

  it('of everything holds each entry that the whole history holds', async () => {
    const before = await report({ as: 'csv' })
    expect(lines(before.text)).toHaveLength(before.result.entries + 1)
    expect(before.text).toContain('valley')
    const { content } = await whole()
    expect(lines(content).slice(0, before.result.entries + 1)).toEqual(lines(before.text))
  })

  it('of a period holds what was written on its days', async () => {
    const today = new Date().toISOString().slice(0, 10)
    const tomorrow = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10)
    const all = await report({ as: 'csv', feederId: 'valley', from: today, to: tomorrow })
    expect(all.result.entries).toBeGreaterThan(0)
    const later = await report({ as: 'csv', feederId: 'valley', from: tomorrow })
    expect(later.result.entries).toBe(0)
    const before = await report({ as: 'csv', feederId: 'valley', to: '2001-02-03' })
    expect(before.result).toMatchObject({
      entries: 0,
      fileName: 'history-valley-start-2001-02-03.csv',
    })
  })

  it('is refused where the period ends before it begins, or of no known feeder', async () => {
    const wrong = { body: { from: '2026-02-02', to: '2026-02-01' } }
    const problem = await server.problem(routes.startHistoryReport, wrong, SUPERVISOR)
    expect(problem.faults).toEqual([{ at: 'body.to', what: 'must not be before the first day' }])
    const unknown = { body: { feederId: 'nowhere' } }
    const missing = await server.problem(routes.startHistoryReport, unknown, SUPERVISOR)
    expect(missing.code).toBe('not-found')
  })

  it('stands in the list of work with what it was asked to be of', async () => {
    const { workId } = await report({ as: 'csv', feederId: 'ridge', from: '2026-01-01' })
    const listed = await server.call(routes.listWork, {}, SUPERVISOR)
    expect(listed.find(({ id }) => id === workId)).toMatchObject({
      kind: 'history-report',
      state: 'done',
      feederId: 'ridge',
      partOf: null,
      report: { as: 'csv', feederId: 'ridge', from: '2026-01-01' },
    })
    expect((await server.problem(routes.listWork, {}, READER)).code).toBe('not-allowed')
  })
})

async function whole() {
  const headers = await server.headersOf(SUPERVISOR)
  const { path, ...request } = buildRequest(
    routes.takeOutHistory,
    { query: { as: 'csv' } },
    headers,
  )
  return { content: await (await fetch(server.address + path, request)).text() }
}
