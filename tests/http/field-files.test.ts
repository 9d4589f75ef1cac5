import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { type FreshDatabase, freshDatabase } from '../support/fresh-database.ts'
import { photo } from '../support/sample-files.ts'
import { entriesThrough } from '../support/walk-job.ts'
import { type Administrator, enterAdministrator } from './enter-administrator.ts'
import {
  COORDINATOR,
  CREW,
  READER,
  SMALL,
  SUPERVISOR,
  startTestServer,
  type TestServer,
} from './test-server.ts'

let dataFolder: string
let fresh: FreshDatabase
let server: TestServer
let administrator: Administrator
beforeAll(async () => {
  dataFolder = await mkdtemp(join(tmpdir(), 'crossarm-field-files-'))
  fresh = await freshDatabase()
  const { databaseUrl } = fresh
  const place = { dataFolder, ...(databaseUrl && { databaseUrl }) }
  server = await startTestServer(place)
  administrator = await enterAdministrator(server.address, place)
})
afterAll(async () => {
  await server.stop()
  await fresh.drop()
  await rm(dataFolder, { recursive: true, force: true })
})

const feeder = { params: { feederId: SMALL } }
const onPole = { attachedTo: 'pole' as const, attachedToId: 'P2' }
const blobOf = (content: Buffer) => new Blob([Uint8Array.from(content)])

const ID = 'device-7-photo-1'
const send = (content: Buffer, query: object = {}) => ({
  ...feeder,
  query: { ...onPole, fileName: 'top.jpg', attachmentId: ID, ...query },
  file: blobOf(content),
})

async function statusOfFile(id: string, as: typeof CREW): Promise<number> {
  const headers = await server.headersOf(as)
  return (await fetch(`${server.address}/api/attachments/${id}/file`, { headers })).status
}

const filesLeft = async () =>
  (await readdir(join(dataFolder, 'attachments'), { recursive: true })).filter((name) =>
    name.endsWith('.part'),
  )

const draft = () => {
  const origin = { kind: 'by hand' as const, jobKind: 'inspection' as const, poles: ['P2'] }
  return server.call(routes.draftJob, { ...feeder, body: { title: 'Look at P2', origin } })
}

const purging = (subjectId: string, version: number) => ({
  body: {
    ...{ subject: 'job' as const, feederId: SMALL, subjectId, version },
    reason: 'drawn up by mistake',
  },
})

describe('a file with an id made on the device', () => {
  it('is attached once, however often it is sent, and never mixed up with another', async () => {
    const content = await photo('jpeg')
    const first = await server.call(routes.attach, send(content), CREW)
    expect(first).toMatchObject({ id: ID, version: 1 })
    const renamed = send(content, { fileName: 'again.jpg' })
    expect(await server.call(routes.attach, renamed, CREW)).toEqual(first)
    const both = [1, 2].map(() =>
      server.call(routes.attach, send(content, { attachmentId: 'device-7-photo-2' }), CREW),
    )
    const [one, other] = await Promise.all(both)
    expect(one).toEqual(other)
    for (const different of [send(await photo('png')), send(content, { attachedToId: 'P3' })]) {
      const problem = await server.problem(routes.attach, different, CREW)
      expect(problem).toMatchObject({ code: 'wrong-state' })
      expect(problem.detail).toContain(`under the id "${ID}" before`)
    }
    const query = { version: 1 }
    const params = { attachmentId: ID }
    const deleted = await server.call(routes.deleteAttachment, { params, query }, COORDINATOR)
    expect(await server.call(routes.attach, send(content), CREW)).toEqual(deleted)
    const body = {
      ...{ subject: 'attachment' as const, feederId: SMALL, subjectId: ID },
      version: 2,
    }
    await server.call(
      routes.purge,
      { body: { ...body, reason: 'taken by mistake' } },
      administrator.headers,
    )
    const late = await server.problem(routes.attach, send(content), CREW)
    expect(late.detail).toContain('was removed for good')
    expect(await filesLeft()).toEqual([])
  })

  it('hangs on a job, is hidden with it, and keeps the job from being purged', async () => {
    const job = await draft()
    const onJob = { attachedTo: 'job' as const, attachedToId: job.id, attachmentId: 'on-a-job' }
    const attached = await server.call(routes.attach, send(await photo('jpeg'), onJob), CREW)
    expect(attached).toMatchObject({ attachedTo: 'job', attachedToId: job.id })
    expect(await statusOfFile(attached.id, CREW)).toBe(200)
    expect(await statusOfFile(attached.id, READER)).toBe(404)
    const list = (as: typeof CREW) => server.call(routes.listAttachments, { ...feeder }, as)
    expect((await list(CREW)).map(({ id }) => id)).toContain(attached.id)
    expect((await list(READER)).map(({ id }) => id)).not.toContain(attached.id)
    const jobId = { params: { jobId: job.id } }
    await server.call(routes.deleteJob, { ...jobId, query: { version: 1 } })
    const purge = () => server.problem(routes.purge, purging(job.id, 2), administrator.headers)
    expect((await purge()).detail).toContain('A file is attached to it')
    const gone = send(await photo('jpeg'), { ...onJob, attachmentId: 'too-late' })
    expect((await server.problem(routes.attach, gone, CREW)).code).toBe('not-found')
    await server.call(
      routes.deleteAttachment,
      { params: { attachmentId: 'on-a-job' }, query: { version: 1 } },
      COORDINATOR,
    )
    await server.call(routes.purge, purging(job.id, 2), administrator.headers)
    const back = {
      params: { attachmentId: 'on-a-job' },
      query: { version: 2 },
    }
    const refused = await server.problem(routes.restoreAttachment, back, COORDINATOR)
    expect(refused.detail).toContain('The job that the file was attached to was removed for good')
  })
})

describe('a job', () => {
  it('is not purged once work in the field was recorded for it, and is without', async () => {
    let worked = await draft()
    for (const to of ['approved', 'issued', 'in the field'] as const) {
      const input = { params: { jobId: worked.id }, body: { version: worked.version, to } }
      worked = await server.call(routes.moveJob, input, SUPERVISOR)
    }
    const [entry] = entriesThrough(worked.plan)
    if (!entry) throw new Error('Expected a step.')
    const params = { jobId: worked.id }
    await server.call(routes.sendEntries, { params, body: { entries: [entry] } }, CREW)
    const { version } = await server.call(
      routes.deleteJob,
      { params, query: { version: worked.version } },
      SUPERVISOR,
    )
    const purge = () =>
      server.problem(routes.purge, purging(worked.id, version), administrator.headers)
    expect((await purge()).detail).toContain('Work in the field was recorded for this job')
    await server.call(routes.restoreJob, { params, query: { version } }, SUPERVISOR)
    expect((await server.call(routes.getJob, { params })).entries).toHaveLength(1)

    const unused = await draft()
    const query = { version: 1 }
    await server.call(routes.deleteJob, { params: { jobId: unused.id }, query }, SUPERVISOR)
    await server.call(routes.purge, purging(unused.id, 2), administrator.headers)
    const problem = await server.problem(routes.restoreJob, {
      params: { jobId: unused.id },
      query: { version: 2 },
    })
    expect(problem.code).toBe('not-found')
  })
})
