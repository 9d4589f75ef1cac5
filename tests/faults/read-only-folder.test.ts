import { chmod, chown, readdir } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { afterEach, expect, it } from 'vitest'
import { ACTING_ROLE_HEADER } from '#contract/actor.ts'
import { buildRequest } from '#contract/build-request.ts'
import type { Problem } from '#contract/problem.ts'
import { readAnswer } from '#contract/read-answer.ts'
import { routes } from '#contract/routes.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { temporaryPlaces } from '../store/temporary-places.ts'
import { enterDemo } from '../support/enter-demo.ts'
import { pdf } from '../support/sample-files.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { addressOf, type RunningProgram, runServer } from './run-program.ts'

const { freshPlace } = temporaryPlaces()

/** Whom no right to write is given by being the owner of the machine: commonly called nobody. */
const PLAIN_USER = 65_534
const FEEDER = 'written'

let running: RunningProgram | null = null
afterEach(async () => {
  running?.child.kill('SIGTERM')
  await running?.ended
  running = null
})

it('says that the data folder cannot be written, goes on with the rest, and takes files again afterwards', async () => {
  const place = await freshPlace('read-only')
  const { dataFolder, databaseUrl = '' } = place
  const uid = process.getuid?.() === 0 ? PLAIN_USER : undefined
  if (uid !== undefined) {
    await chmod(dirname(dataFolder), 0o755)
    await chown(dataFolder, uid, uid)
  }
  running = runServer({ CROSSARM_DATA: dataFolder, DATABASE_URL: databaseUrl }, uid)
  const address = await addressOf(running)
  const cookie = await enterDemo(address, 'coordinator')
  const headers = { cookie, [ACTING_ROLE_HEADER]: 'coordinator' }
  const send = ({ path, ...request }: ReturnType<typeof buildRequest>) =>
    fetch(address + path, request)
  const params = { feederId: FEEDER }
  const attach = () => {
    const query = { attachedTo: 'pole', attachedToId: 'P2', fileName: 'report.pdf' } as const
    const file = new Blob([Uint8Array.from(pdf())])
    return send(buildRequest(routes.attach, { params, query, file }, headers))
  }
  const cover = () => {
    const body = { pole: 'P2', kind: 'cover', what: 'cap', state: 'on', on: '2026-05-01' } as const
    return send(buildRequest(routes.addProtection, { params, body }, headers))
  }
  const body = { layers: layersOfFeeder(smallFeeder({ id: FEEDER })) }
  expect((await send(buildRequest(routes.takeInFeeder, { body }, headers))).status).toBe(201)
  expect((await attach()).status).toBe(201)

  const folder = join(dataFolder, 'attachments')
  await chmod(folder, 0o555)
  const refused = await attach()
  expect(refused.status).toBe(503)
  const { code, detail } = (await refused.json()) as Problem
  expect(code).toBe('unavailable')
  expect(detail).toContain('The data folder can be read but not written.')
  expect((await cover()).status).toBe(201)

  await chmod(folder, 0o755)
  const taken = await attach()
  const attached = await readAnswer(routes.attach, taken)
  expect(attached).toMatchObject({ attachedToId: 'P2', version: 1 })
  expect((await readdir(folder)).filter((name) => name.endsWith('.part'))).toEqual([])
  const { chain, database, rows, files } = await verifyRecord(place)
  expect([chain.fault, database, rows, files]).toEqual([null, [], [], []])
}, 240_000)
