import { createHash } from 'node:crypto'
import { readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { zipSync } from 'fflate'
import sharp from 'sharp'
import { beforeEach, describe, expect, it } from 'vitest'
import type { StagedFile } from '../../server/services/attachment-ports.ts'
import { attachmentPath } from '../../server/store/attachment-files.ts'
import { checkAttachments } from '../../server/store/check-attachments.ts'
import {
  jpegMarkers,
  pdf,
  photo,
  pngChunks,
  type SampleFormat,
  sidewaysPhoto,
  TELLTALE,
  webpChunks,
} from '../support/sample-files.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { stampAt, temporaryStore } from './temporary-store.ts'

const MB = 1024 * 1024
const temporary = temporaryStore()

beforeEach(async () => {
  await temporary.store.feeders.add(smallFeeder({ id: 'small' }), 'added', stampAt(0))
})

function streamOf(...pieces: Uint8Array[]): ReadableStream<Uint8Array> {
  return new ReadableStream({
    pull(controller) {
      const piece = pieces.shift()
      if (piece) controller.enqueue(piece)
      else controller.close()
    },
  })
}

function stage(content: Uint8Array | ReadableStream<Uint8Array>) {
  const stream = content instanceof Uint8Array ? streamOf(content) : content
  return temporary.store.attachments.stage(stream, 25 * MB)
}

async function staged(content: Uint8Array): Promise<StagedFile> {
  const staging = await stage(content)
  if (staging.status !== 'staged')
    throw new Error(`Expected it to be taken, got ${staging.status}.`)
  return staging.file
}

async function attach(id: string, content: Uint8Array, second = 1) {
  const place = { feederId: 'small', attachedTo: 'pole', attachedToId: 'P2' } as const
  const words = { fileName: 'photo.jpg', note: '' }
  const file = await staged(content)
  return temporary.store.attachments.add({ id, ...place, ...words }, file, stampAt(second))
}

async function shown(id: string): Promise<Buffer> {
  const { sha256, mediaType } = (await temporary.store.attachments.find(id)) ?? {}
  const file = await temporary.store.attachments.open(sha256 ?? '', mediaType ?? 'image/png')
  return Buffer.from(await new Response(file?.content).arrayBuffer())
}

const folder = () => join(temporary.folder, 'attachments')
const filesLeft = async () =>
  (await readdir(folder(), { recursive: true }).catch(() => [])).filter((name) => name.length > 2)

describe('a photograph that is attached', () => {
  it.each<[SampleFormat, (file: Buffer) => string[], RegExp]>([
    ['jpeg', jpegMarkers, /^(E0|DB|C[0-2]|C4|DD|DA)$/],
    ['png', pngChunks, /^(IHDR|PLTE|tRNS|pHYs|IDAT|IEND)$/],
    ['webp', webpChunks, /^(VP8 |VP8L|VP8X|ALPH)$/],
  ])('is shown as %s without place, person, device and profile', async (format, parts, allowed) => {
    const original = await photo(format)
    expect(original.includes(TELLTALE)).toBe(true)
    await attach('a', original)
    const answer = await shown('a')
    for (const part of parts(answer)) expect(part).toMatch(allowed)
    for (const word of [TELLTALE, 'Telltale Cameras', 'Exif', 'GPS', 'xmpmeta', 'ICC_PROFILE']) {
      expect(answer.includes(word)).toBe(false)
    }
    const { exif, xmp, icc, iptc, ...metadata } = await sharp(answer).metadata()
    expect([exif, xmp, icc, iptc]).toEqual([undefined, undefined, undefined, undefined])
    expect(metadata).toMatchObject({ format, width: 60, height: 40 })
  })

  it('is kept as it was taken, under the hash of its content', async () => {
    const original = await photo('jpeg')
    const { sha256 } = await attach('a', original)
    expect(sha256).toBe(createHash('sha256').update(original).digest('hex'))
    expect(await readFile(attachmentPath(folder(), sha256))).toEqual(original)
  })

  it('is shown upright where the device was held sideways', async () => {
    await attach('a', await sidewaysPhoto())
    const { data, info } = await sharp(await shown('a'))
      .raw()
      .toBuffer({ resolveWithObject: true })
    expect(info).toMatchObject({ width: 40, height: 80 })
    const at = (x: number, y: number) => [...data.subarray((y * 40 + x) * 3).subarray(0, 3)]
    const [topRed = 0, , topBlue = 0] = at(20, 10)
    const [bottomRed = 0, , bottomBlue = 0] = at(20, 70)
    expect(topRed).toBeGreaterThan(topBlue)
    expect(bottomBlue).toBeGreaterThan(bottomRed)
  })

  it('is shown without what was hidden behind it', async () => {
    const hidden = zipSync({ 'page.html': Buffer.from('<script>steal()</script>') })
    await attach('a', Buffer.concat([await photo('jpeg'), hidden, Buffer.from('<script>')]))
    const answer = await shown('a')
    expect(answer.includes('<script>')).toBe(false)
    expect(answer.includes('PK\u0003\u0004')).toBe(false)
  })

  it('is shown again after what was made to show it is lost', async () => {
    const { sha256 } = await attach('a', await photo('png'))
    const before = await shown('a')
    await rm(`${attachmentPath(folder(), sha256)}.shown`)
    expect(await shown('a')).toEqual(before)
  })
})

describe('a file whose change is not kept', () => {
  it('leaves nothing', async () => {
    const { store } = temporary
    const file = await staged(pdf())
    const place = { feederId: 'small', attachedTo: 'pole', attachedToId: 'P2' } as const
    const attachment = { id: 'a', ...place, fileName: 'report.pdf', note: '' }
    const failing = store.together(async () => {
      await store.attachments.add(attachment, file, stampAt(1))
      throw new Error('Something else failed.')
    })
    await expect(failing).rejects.toThrow('Something else failed.')
    await store.attachments.abandon(file)
    expect(await store.attachments.find('a')).toBeNull()
    expect(await filesLeft()).toEqual([])
  })
})

describe('the same content attached twice', () => {
  it('is stored once, and stays until nothing refers to it', async () => {
    const { store } = temporary
    const content = await photo('png')
    const first = await attach('a', content, 1)
    await attach('b', content, 2)
    const file = attachmentPath(folder(), first.sha256)
    expect((await filesLeft()).filter((name) => !name.endsWith('.shown'))).toHaveLength(1)
    for (const [id, isLast] of [
      ['a', false],
      ['b', true],
    ] as const) {
      await store.attachments.delete(id, 1, stampAt(3))
      await store.attachments.purge('small', id, 2, 'A mistake', stampAt(4))
      // Removing takes its turn after the purge; another write mostly comes after both.
      await store.requestKeys.forget(stampAt(0).at)
      const isThere = () =>
        readFile(file).then(
          () => true,
          () => false,
        )
      await expect.poll(isThere, { timeout: 30_000 }).toBe(!isLast)
    }
    expect(await filesLeft()).toEqual([])
  })
})

describe('the record of attached files', () => {
  it('lists those that stand, newest first, of one thing where one is named', async () => {
    const { attachments } = temporary.store
    await attach('a', pdf('one'), 1)
    await attach('b', pdf('two'), 2)
    await attachments.delete('a', 1, stampAt(3))
    expect((await attachments.list('small', {})).map(({ id }) => id)).toEqual(['b'])
    await attachments.restore('a', 2, stampAt(4))
    expect((await attachments.list('small', {})).map(({ id }) => id)).toEqual(['a', 'b'])
    const elsewhere = { attachedTo: 'pole', attachedToId: 'P3' } as const
    expect(await attachments.list('small', elsewhere)).toEqual([])
  })

  it('is told in the history', async () => {
    await attach('a', pdf())
    await temporary.store.attachments.delete('a', 1, stampAt(2))
    const entries = await temporary.store.history.of('attachment', 'a')
    expect(entries.map(({ what }) => what)).toEqual(['added', 'deleted'])
  })

  it('is checked against the files: those lost, altered or left over are named', async () => {
    const { database } = temporary.store
    const kept = await Promise.all(['whole', 'lost', 'altered'].map((id) => attach(id, pdf(id))))
    const [, lost, altered] = kept.map(({ sha256 }) => attachmentPath(folder(), sha256))
    const left = await staged(pdf('left over'))
    await left.place()
    const check = () => checkAttachments(database, temporary.folder)
    const leftOver = attachmentPath(folder(), left.sha256)
    expect(await check()).toEqual({ whole: 4, missing: [], altered: [], unreferenced: [leftOver] })
    await rm(lost ?? '')
    await writeFile(altered ?? '', 'something else')
    expect(await check()).toEqual({
      whole: 2,
      missing: ['lost'],
      altered: [altered],
      unreferenced: [leftOver],
    })
  })
})
