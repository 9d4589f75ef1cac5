import { randomBytes } from 'node:crypto'
import { mkdtemp, readdir, rm, utimes } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { zipSync } from 'fflate'
import sharp from 'sharp'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { AttachmentFiles, StagedFile } from '../../../server/services/attachment-ports.ts'
import { attachmentFiles, removeUnfinished } from '../../../server/store/attachment-files.ts'
import { receiveFile } from '../../../server/store/receive-file.ts'
import { hugePng, pdf, photo, withChunk } from '../../support/sample-files.ts'

const MB = 1024 * 1024

let dataFolder: string
let files: AttachmentFiles
beforeEach(async () => {
  dataFolder = await mkdtemp(join(tmpdir(), 'crossarm-files-'))
  files = attachmentFiles(dataFolder)
})
afterEach(() => rm(dataFolder, { recursive: true, force: true }))

function stage(content: Buffer | ReadableStream<Uint8Array>) {
  const stream = Buffer.isBuffer(content) ? new Blob([Uint8Array.from(content)]).stream() : content
  return files.stage(stream, 25 * MB)
}

async function staged(content: Buffer): Promise<StagedFile> {
  const staging = await stage(content)
  if (staging.status !== 'staged')
    throw new Error(`Expected it to be taken, got ${staging.status}.`)
  return staging.file
}

const folder = () => join(dataFolder, 'attachments')
const filesLeft = async () =>
  (await readdir(folder(), { recursive: true }).catch(() => [])).filter((name) => name.length > 2)

describe('what kind a file is', () => {
  it('is told by its content', async () => {
    const kinds = [await photo('jpeg'), await photo('png'), await photo('webp'), pdf()]
    const types: string[] = []
    for (const content of kinds) types.push((await staged(content)).mediaType)
    expect(types).toEqual(['image/jpeg', 'image/png', 'image/webp', 'application/pdf'])
  })

  it.each<[string, () => Buffer | Promise<Buffer>]>([
    ['a zip archive', () => Buffer.from(zipSync({ 'a.txt': Buffer.from('a') }))],
    ['a Windows program', () => Buffer.from(`MZ${'\0'.repeat(200)}This program`)],
    ['a Linux program', () => Buffer.from([0x7f, 0x45, 0x4c, 0x46, 2, 1, 1, 0])],
    [
      'a drawing that could hold scripts',
      () => Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'),
    ],
    ['a page', () => Buffer.from('<!doctype html><script>alert(1)</script>')],
    ['a page with a PDF inside', () => Buffer.concat([Buffer.from('<html>'), pdf()])],
    ['a PDF that is cut', () => pdf().subarray(0, 60)],
    [
      'a GIF',
      () =>
        sharp({ create: { width: 2, height: 2, channels: 3, background: 'red' } })
          .gif()
          .toBuffer(),
    ],
    ['nothing at all', () => Buffer.alloc(0)],
    [
      'the first bytes of a JPEG and then noise',
      () => Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xe0]), randomBytes(500)]),
    ],
    ['half a photograph', async () => (await photo('jpeg', 400, 400)).subarray(0, 40_000)],
    ['a PNG whose data are missing', () => hugePng(100, 100)],
    ['a PNG of 3600 million pixels', () => hugePng(60_000, 60_000)],
    [
      'a PNG that moves',
      async () => withChunk(await photo('png'), 'acTL', Buffer.from([0, 0, 0, 2, 0, 0, 0, 0])),
    ],
    ['a WebP that moves', movingWebp],
  ])('%s is refused, and nothing of it stays', async (_, content) => {
    const staging = await stage(await content())
    expect(staging).toMatchObject({ status: 'unfit', why: expect.stringMatching(/^(is|cannot) /) })
    expect(await filesLeft()).toEqual([])
  })

  function movingWebp(): Promise<Buffer> {
    const raw = { width: 8, height: 16, channels: 3 as const, pageHeight: 8 }
    return sharp(randomBytes(8 * 16 * 3), { raw })
      .webp({ loop: 0, delay: [100, 100] })
      .toBuffer()
  }
})

describe('a file that does not arrive well', () => {
  it('is left as soon as it is too large', async () => {
    let given = 0
    const endless = new ReadableStream<Uint8Array>({
      pull(controller) {
        given++
        controller.enqueue(new Uint8Array(MB))
      },
    })
    expect(await stage(endless)).toEqual({ status: 'too-large' })
    expect(given).toBeLessThan(30)
    expect(await filesLeft()).toEqual([])
  })

  it('leaves nothing where the line breaks', async () => {
    const start = (await photo('jpeg', 300, 300)).subarray(0, 1000)
    const broken = new ReadableStream<Uint8Array>({
      start: (controller) => controller.enqueue(start),
      pull: (controller) => controller.error(new Error('The line broke.')),
    })
    expect(await stage(broken)).toEqual({ status: 'cut-short' })
    expect(await filesLeft()).toEqual([])
  })

  it('leaves nothing where the sender falls silent', async () => {
    const silent = new ReadableStream<Uint8Array>({
      start: (controller) => controller.enqueue(new Uint8Array(10)),
    })
    const file = join(dataFolder, 'silent')
    expect(await receiveFile(silent, file, MB, 50)).toEqual({ status: 'cut-short' })
    expect(await readdir(dataFolder)).not.toContain('silent')
  })

  it('is cleared away at the next start where the server ended in the middle', async () => {
    await staged(pdf())
    const names = await filesLeft()
    expect(names).toHaveLength(1)
    await removeUnfinished(dataFolder, 60_000)
    expect(await filesLeft()).toEqual(names)
    const hourAgo = new Date(Date.now() - 3_600_000)
    for (const name of names) await utimes(join(folder(), name), hourAgo, hourAgo)
    await removeUnfinished(dataFolder, 60_000)
    expect(await filesLeft()).toEqual([])
  })
})
