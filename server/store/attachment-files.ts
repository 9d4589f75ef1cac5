import { randomUUID } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { mkdir, open, readdir, rename, rm, stat } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { Readable } from 'node:stream'
import type { AttachmentFiles, AttachmentType, Staging } from '../services/attachment-ports.ts'
import { fileType } from './file-type.ts'
import { type ImageType, writeImageToShow } from './image-to-show.ts'
import { receiveFile } from './receive-file.ts'

export const ATTACHMENTS_FOLDER = 'attachments'

/** Ends the name of a file that is not whole yet. */
const UNFINISHED = '.part'
/** Ends the name of what is shown in place of an image; it can be made again at any time. */
export const SHOWN = '.shown'

const UNFIT_TYPE =
  'is none of the kinds that are taken: JPEG, PNG and WebP images, and PDF documents. What it is called does not matter'

/**
 * Attached files beside the database, each under the hash of its content and so kept once:
 * `attachments/ab/abcd…`. The original never leaves the server but in a backup; of an image
 * people are shown `abcd….shown`, which holds nothing but the pixels.
 *
 * @param dataFolder folder in which `attachments` lies
 */
export function attachmentFiles(dataFolder: string): AttachmentFiles {
  const folder = join(dataFolder, ATTACHMENTS_FOLDER)
  const oneAtATime = queue()
  const show = (file: string, type: ImageType, target: string) =>
    oneAtATime(() => writeImageToShow(file, type, target))
  return {
    stage: (content, mostBytes) => stage(folder, content, mostBytes, show),
    open: async (sha256, type) => {
      const original = attachmentPath(folder, sha256)
      if (type === 'application/pdf') return openFile(original)
      const shown = original + SHOWN
      return (await openFile(shown)) ?? (await showAgain(original, type, shown, show))
    },
    remove: async (sha256) => {
      const file = attachmentPath(folder, sha256)
      await Promise.all([rm(file, { force: true }), rm(file + SHOWN, { force: true })])
      await syncFolder(dirname(file)).catch(ignoreMissing)
    },
  }
}

type Show = (file: string, type: ImageType, target: string) => Promise<string | null>

export function attachmentPath(folder: string, sha256: string): string {
  if (!/^[0-9a-f]{64}$/.test(sha256)) throw new Error(`Expected a SHA-256, got "${sha256}".`)
  return join(folder, sha256.slice(0, 2), sha256)
}

/**
 * Removes what uploads left that were cut short by the end of a server.
 *
 * @param untouchedMs leaves alone what was written to since: another server may be at it
 */
export async function removeUnfinished(dataFolder: string, untouchedMs: number): Promise<void> {
  const folder = join(dataFolder, ATTACHMENTS_FOLDER)
  const names = await readdir(folder).catch(ignoreMissing)
  const unfinished = (names ?? []).filter((name) => name.endsWith(UNFINISHED))
  for (const file of unfinished.map((name) => join(folder, name))) {
    const { mtimeMs } = (await stat(file).catch(ignoreMissing)) ?? { mtimeMs: Number.NaN }
    if (Date.now() - mtimeMs >= untouchedMs) await rm(file, { force: true })
  }
}

async function stage(
  folder: string,
  content: ReadableStream<Uint8Array>,
  mostBytes: number,
  show: Show,
): Promise<Staging> {
  await mkdir(folder, { recursive: true })
  const file = join(folder, randomUUID() + UNFINISHED)
  const received = await receiveFile(content, file, mostBytes)
  if (received.status !== 'received') return received
  const shown = join(folder, randomUUID() + UNFINISHED)
  const discard = async () => {
    await Promise.all([rm(file, { force: true }), rm(shown, { force: true })])
  }
  try {
    const mediaType = await fileType(file)
    const why = mediaType === null ? UNFIT_TYPE : await whyNotShown(file, mediaType, shown, show)
    if (mediaType === null || why !== null) {
      await discard()
      return { status: 'unfit', why: why ?? UNFIT_TYPE }
    }
    const { sha256, sizeBytes } = received
    const place = () =>
      putInPlace(folder, sha256, file, mediaType === 'application/pdf' ? null : shown)
    return { status: 'staged', file: { sha256, sizeBytes, mediaType, place, discard } }
  } catch (error) {
    await discard()
    throw error
  }
}

async function whyNotShown(
  file: string,
  type: AttachmentType,
  shown: string,
  show: Show,
): Promise<string | null> {
  if (type === 'application/pdf') return null
  const why = await show(file, type, shown)
  if (why === null) await syncFile(shown)
  return why
}

/** Puts whole files where they belong, so that they stand there even after the power fails. */
async function putInPlace(
  folder: string,
  sha256: string,
  file: string,
  shown: string | null,
): Promise<void> {
  const target = attachmentPath(folder, sha256)
  await mkdir(dirname(target), { recursive: true })
  await rename(file, target)
  if (shown !== null) await rename(shown, target + SHOWN)
  await syncFolder(dirname(target))
  await syncFolder(folder)
}

async function showAgain(original: string, type: ImageType, target: string, show: Show) {
  const unfinished = join(dirname(dirname(original)), randomUUID() + UNFINISHED)
  if ((await stat(original).catch(ignoreMissing)) === undefined) return null
  const why = await show(original, type, unfinished)
  if (why !== null) throw new Error(`The attached file ${original} ${why}.`)
  await rename(unfinished, target)
  return openFile(target)
}

async function openFile(file: string) {
  const handle = await open(file, 'r').catch(ignoreMissing)
  if (!handle) return null
  const { size } = await handle.stat()
  const stream = createReadStream(file, { fd: handle })
  const content = Readable.toWeb(stream) as ReadableStream<Uint8Array>
  return { content, sizeBytes: size }
}

async function syncFile(file: string): Promise<void> {
  const handle = await open(file, 'r+')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}

async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}

function ignoreMissing(error: unknown): undefined {
  if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined
  throw error
}

/** Work that takes much memory is done one after the other. */
function queue() {
  let last: Promise<unknown> = Promise.resolve()
  return <Result>(work: () => Promise<Result>): Promise<Result> => {
    const result = last.then(work)
    last = result.catch(() => undefined)
    return result
  }
}
