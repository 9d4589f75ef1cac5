import { Validator } from '@seriousme/openapi-schema-validator'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type RouteName, routes } from '#contract/routes.ts'
import { PLACE, SMALL, startTestServer, type TestServer } from './test-server.ts'

interface Operation {
  readonly operationId: string
  readonly parameters: readonly { name: string; in: string }[]
  readonly responses: Record<string, { content: Record<string, { schema: object }> }>
}

let server: TestServer
let document: { openapi: string; paths: Record<string, Record<string, Operation>> }
beforeAll(async () => {
  server = await startTestServer()
  const answer = await server.call(routes.getOpenapi, {})
  document = answer as typeof document
})
afterAll(() => server.stop())

const names = Object.keys(routes) as RouteName[]

function operationOf(name: RouteName): Operation | undefined {
  const { path, method } = routes[name]
  return document.paths[path]?.[method.toLowerCase()]
}

it('is a valid OpenAPI 3.1 document by the schema that the OpenAPI Initiative publishes', async () => {
  const checked = await new Validator().validate(structuredClone(document))
  expect(checked.errors ?? []).toEqual([])
  expect(document.openapi).toBe('3.1.0')
})

it.each(names)('describes %s with its answer and its problems', (name) => {
  const operation = operationOf(name)
  expect(operation?.operationId).toBe(name)
  const { status, mediaType } = routes[name].answer
  expect(Object.keys(operation?.responses[status]?.content ?? {})).toEqual([mediaType])
  const statuses = Object.keys(operation?.responses ?? {})
  expect(statuses).toEqual(expect.arrayContaining(['400', '500']))
})

describe('every address of the table', () => {
  it.each(names)('%s is served', async (name) => {
    const { path, method } = routes[name]
    const address = path.replace(/\{\w+\}/g, 'none')
    const leave = new AbortController()
    const answer = await fetch(server.address + address, { method, signal: leave.signal })
    expect([405, 500]).not.toContain(answer.status)
    if (routes[name].right !== 'anyone') expect(answer.status).toBe(401)
    else expect(await answer.text()).not.toContain('There is nothing at')
    leave.abort()
  })
})

describe('answers as they are', () => {
  const feederId = { params: { feederId: SMALL } }
  const ask: Partial<Record<RouteName, () => Promise<unknown>>> = {
    getReady: () => server.call(routes.getReady, {}),
    listFeeders: () => server.call(routes.listFeeders, {}),
    getFeeder: () => server.call(routes.getFeeder, feederId),
    getLand: () => server.call(routes.getLand, { params: { placeId: PLACE } }),
    listProtections: () => server.call(routes.listProtections, feederId),
    solveVoltage: () =>
      server.call(routes.solveVoltage, { ...feederId, body: { taps: 'controlled' } }),
  }

  it.each(Object.keys(ask) as RouteName[])('%s fits its description', async (name) => {
    const media = operationOf(name)?.responses['200']?.content['application/json']
    const check = new Ajv2020({ strict: false, validateFormats: false }).compile(
      media?.schema ?? false,
    )
    check(await ask[name]?.())
    expect(check.errors ?? []).toEqual([])
  })
})
