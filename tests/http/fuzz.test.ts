import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ROLES, type Role } from '#contract/actor.ts'
import { PROBLEM_MEDIA_TYPE, Problem } from '#contract/problem.ts'
import { type RouteName, routes } from '#contract/routes.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import {
  type Headers,
  hireOneOfEach,
  type StaffedServer,
  startStaffedServer,
} from '../people/staff.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { type Operation, type RandomRequest, randomRequest } from './random-request.ts'

/** The same requests in every run. */
const SEED = 20_261_125
const RUNS = 12

interface Described extends Operation {
  readonly responses: Readonly<Record<string, { readonly description: string }>>
}

let server: StaffedServer
let staff: Readonly<Record<Role, Headers>>
let known: string[]
let paths: Readonly<Record<string, Readonly<Record<string, Described>>>>

beforeAll(async () => {
  server = await startStaffedServer()
  staff = await hireOneOfEach(server)
  known = await fillRecord()
  const document = await server.call(routes.getOpenapi, {}, 'nobody')
  paths = document.paths as typeof paths
})
afterAll(() => server.stop())

const as = (role: Role | 'nobody'): Headers => (role === 'nobody' ? {} : staff[role])

/** One thing of each kind, so that some requests find what they ask for. */
async function fillRecord(): Promise<string[]> {
  const layers = layersOfFeeder(smallFeeder({ poles: 5 }))
  const { id: feederId } = await server.call(
    routes.takeInFeeder,
    { body: { layers } },
    as('planner'),
  )
  const params = { feederId }
  const protections = await server.call(routes.listProtections, { params }, as('planner'))
  const { studyId } = await server.call(
    routes.startStudy,
    { params, body: { request: { banks: 1 } } },
    as('planner'),
  )
  return [feederId, studyId, await jobInTheField(feederId), ...protections.map(({ id }) => id)]
}

async function jobInTheField(feederId: string): Promise<string> {
  const origin = { kind: 'by hand' as const, jobKind: 'inspection' as const, poles: ['P2', 'P3'] }
  const drafting = { params: { feederId }, body: { title: 'Look at the poles', origin } }
  let job = await server.call(routes.draftJob, drafting, as('planner'))
  for (const to of ['approved', 'issued', 'in the field'] as const) {
    const body = { version: job.version, to }
    job = await server.call(routes.moveJob, { params: { jobId: job.id }, body }, as('supervisor'))
  }
  return job.id
}

/** What no answer may show: where the program lies, its stack, or the statements of its database. */
const INNARDS =
  /\n\s+at |node_modules|\.(ts|mjs|js):\d+|node:internal|postgres:\/\/|SQLITE_|\bselect\b.*\bfrom\b/i

async function send(method: string, request: RandomRequest, role: Role | 'nobody') {
  const leave = new AbortController()
  const answer = await fetch(server.address + request.path, {
    method,
    headers: { ...as(role), ...(request.contentType && { 'content-type': request.contentType }) },
    ...(request.body !== undefined && { body: request.body }),
    signal: leave.signal,
  })
  const mediaType = answer.headers.get('content-type') ?? ''
  const isStream = mediaType === 'text/event-stream'
  const text = isStream ? '' : await answer.text()
  leave.abort()
  return { status: answer.status, mediaType, text }
}

function checkAnswer(answer: Awaited<ReturnType<typeof send>>, operation: Described): void {
  const { status, mediaType, text } = answer
  expect(status, text).toBeLessThan(500)
  if (status < 300) return
  expect(text).not.toMatch(INNARDS)
  expect(mediaType).toBe(PROBLEM_MEDIA_TYPE)
  const problem = Problem.parse(JSON.parse(text))
  expect(problem.status).toBe(status)
  expect(operation.responses[status]?.description, problem.code).toContain(`${problem.code}:`)
}

/** Would end the sessions that all the others need. */
const AS_NOBODY: readonly RouteName[] = ['signOut']

describe('random and damaged requests to', () => {
  const names = Object.keys(routes) as RouteName[]
  it.each(names)('%s are answered as described, and never break it', async (name) => {
    const { path, method } = routes[name]
    const operation = paths[path]?.[method.toLowerCase()]
    if (!operation) throw new Error(`Expected ${name} in the OpenAPI document.`)
    const roles = fc.constantFrom(...(AS_NOBODY.includes(name) ? [] : ROLES), 'nobody' as const)
    await fc.assert(
      fc.asyncProperty(randomRequest(path, operation, known), roles, async (request, role) => {
        checkAnswer(await send(method, request, role), operation)
      }),
      { seed: SEED, numRuns: RUNS },
    )
  })
})

describe('after all of them', () => {
  it('the server still does its work', async () => {
    const feeders = await server.call(routes.listFeeders, {}, as('planner'))
    expect(feeders.length).toBeGreaterThan(0)
    expect(await server.call(routes.getReady, {}, 'nobody')).toEqual({ status: 'ready' })
  })

  it('no object has a member that was sent', () => {
    expect(Object.keys(Object.prototype)).toEqual([])
    expect('isAdministrator' in {}).toBe(false)
  })
})
