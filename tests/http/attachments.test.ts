import { readdir } from 'node:fs/promises'
import { request } from 'node:http'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { pdf, photo, TELLTALE } from '../support/sample-files.ts'
import {
  COORDINATOR,
  CREW,
  READER,
  SMALL,
  startTestServer,
  type TestServer,
} from './test-server.ts'

const MB = 1024 * 1024

let server: TestServer
beforeAll(async () => {
  server = await startTestServer()
})
afterAll(() => server.stop())

const feeder = { params: { feederId: SMALL } }
const onPole = { attachedTo: 'pole', attachedToId: 'P2' } as const

function blobOf(content: Buffer, type = ''): Blob {
  return new Blob([Uint8Array.from(content)], { type })
}

function attach(content: Buffer, fileName = 'photo.jpg', type = '') {
  const query = { ...onPole, fileName }
  return server.call(routes.attach, { ...feeder, query, file: blobOf(content, type) }, CREW)
}

function refused(content: Buffer, query = {}) {
  const all = { ...onPole, fileName: 'photo.jpg', ...query }
  return server.problem(routes.attach, { ...feeder, query: all, file: blobOf(content) }, CREW)
}

async function fileOf(id: string, as = READER): Promise<Response> {
  const headers = await server.headersOf(as)
  return fetch(`${server.address}/api/attachments/${id}/file`, { headers })
}

const filesLeft = async () =>
  (await readdir(join(server.folder, 'data/attachments'), { recursive: true })).filter((name) =>
    name.endsWith('.part'),
  )

describe('a photograph', () => {
  it('is attached to a pole by the crew and shown to a reader without what it tells of them', async () => {
    const content = await photo('jpeg')
    const attached = await attach(content, 'Pole 2.JPG', 'text/html')
    expect(attached).toMatchObject({
      feederId: SMALL,
      ...onPole,
      fileName: 'Pole 2.JPG',
      mediaType: 'image/jpeg',
      sizeBytes: content.length,
      version: 1,
      changedBy: CREW,
    })
    const answer = await fileOf(attached.id)
    const shown = Buffer.from(await answer.arrayBuffer())
    expect(answer.headers.get('content-type')).toBe('image/jpeg')
    expect(Number(answer.headers.get('content-length'))).toBe(shown.length)
    expect(content.includes(TELLTALE)).toBe(true)
    expect(shown.includes(TELLTALE)).toBe(false)
    expect((await sharp(shown).metadata()).exif).toBeUndefined()
  })

  it('can be listed, deleted and restored, and tells of it in the history', async () => {
    const { id } = await attach(await photo('png'), 'listed.png')
    const list = () => server.call(routes.listAttachments, { ...feeder, query: onPole })
    expect((await list()).map((each) => each.id)).toContain(id)
    const named = { params: { attachmentId: id } }
    const first = { ...named, query: { version: 1 } }
    await server.call(routes.deleteAttachment, first, COORDINATOR)
    expect((await list()).map((each) => each.id)).not.toContain(id)
    const stale = await server.problem(routes.restoreAttachment, first, COORDINATOR)
    expect(stale).toMatchObject({ code: 'stale-version', current: { version: 2 } })
    await server.call(routes.restoreAttachment, { ...named, query: { version: 2 } }, COORDINATOR)
    const history = { params: { subject: 'attachment' as const, subjectId: id } }
    const { entries } = await server.call(routes.getHistory, history)
    expect(entries.map(({ what }) => what)).toEqual(['added', 'deleted', 'restored'])
  })
})

describe('a document', () => {
  it('is only ever saved, under a name that says what it is, and may do nothing', async () => {
    const { id } = await attach(pdf(), '../../etc/<b>"report.html')
    const answer = await fileOf(id)
    expect(Buffer.from(await answer.arrayBuffer())).toEqual(pdf())
    expect(answer.headers.get('content-type')).toBe('application/pdf')
    expect(answer.headers.get('content-security-policy')).toBe("default-src 'none'; sandbox")
    expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
    const disposition = answer.headers.get('content-disposition') ?? ''
    expect(disposition).toMatch(/^attachment; filename="_b__report\.html\.pdf"/)
    expect(disposition).not.toContain('..')
  })
})

describe('a file that is refused', () => {
  it.each<[string, () => Buffer]>([
    ['a page', () => Buffer.from('<!doctype html><script>alert(1)</script>')],
    ['an archive', () => Buffer.from('PK\u0003\u0004'.padEnd(100, '\0'))],
    ['nothing', () => Buffer.alloc(0)],
  ])('is %s, whatever it is called', async (_, content) => {
    const problem = await refused(content())
    expect(problem).toMatchObject({ status: 415, code: 'wrong-media-type' })
    expect(problem.detail).toContain('JPEG, PNG and WebP images, and PDF documents')
  })

  it('is one for a thing that the feeder does not have', async () => {
    for (const attachedTo of ['pole', 'proposal', 'protection']) {
      const problem = await refused(pdf(), { attachedTo, attachedToId: 'elsewhere' })
      expect(problem).toMatchObject({ status: 404, code: 'not-found' })
    }
  })

  it('is one of 26 MB, also where its length is not told', async () => {
    const large = Buffer.concat([await photo('jpeg'), Buffer.alloc(26 * MB)])
    const told = await sendPieces([large], { 'content-length': String(large.length) })
    const pieces = Array.from({ length: 26 }, (_, at) => large.subarray(at * MB, (at + 1) * MB))
    const untold = await sendPieces([...pieces, large.subarray(26 * MB)], {})
    for (const answer of [told, untold]) {
      expect(answer.status).toBe(413)
      expect(answer.text).toContain('25 MB')
    }
    expect(await filesLeft()).toEqual([])
  })

  it('leaves nothing where the sender hangs up in the middle', async () => {
    const { sending, hungUp } = await beginUpload()
    sending.write(await photo('jpeg', 400, 400))
    sending.destroy()
    await hungUp
    await expect.poll(filesLeft).toEqual([])
    const { id } = await attach(pdf('after'), 'after.pdf')
    expect(id).not.toBe('')
  })
})

interface PlainAnswer {
  readonly status: number
  readonly text: string
}

async function uploadOptions(headers: Record<string, string>) {
  const query = new URLSearchParams({ ...onPole, fileName: 'large.jpg' })
  const { hostname, port } = new URL(server.address)
  const path = `/api/feeders/${SMALL}/attachments?${query}`
  return {
    hostname,
    port,
    path,
    method: 'POST',
    headers: { ...(await server.headersOf(CREW)), ...headers },
  }
}

/** Without `fetch`, which gives up on an answer that comes before all is sent. */
async function sendPieces(
  pieces: readonly Buffer[],
  headers: Record<string, string>,
): Promise<PlainAnswer> {
  const options = await uploadOptions(headers)
  return new Promise((resolve, reject) => {
    let hasAnswered = false
    const sending = request(options, (answer) => {
      hasAnswered = true
      let text = ''
      answer.setEncoding('utf8').on('data', (part: string) => {
        text += part
      })
      answer.on('end', () => resolve({ status: answer.statusCode ?? 0, text }))
    })
    // Once it has answered, the server need not take in the rest.
    sending.on('error', (error) => {
      if (!hasAnswered) reject(error)
    })
    for (const piece of pieces) sending.write(piece)
    sending.end()
  })
}

async function beginUpload() {
  const sending = request(await uploadOptions({ 'content-length': String(MB) }))
  const hungUp = new Promise<void>((resolve) => {
    sending.on('error', () => resolve())
    sending.on('close', () => resolve())
  })
  return { sending, hungUp }
}
