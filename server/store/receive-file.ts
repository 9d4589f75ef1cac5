import { createHash } from 'node:crypto'
import { type FileHandle, open, rm } from 'node:fs/promises'

/** An upload that sends nothing for so long is given up. */
const LONGEST_SILENCE_MS = 30_000

/** How a file arrived; `cut-short` where the sender left or fell silent. */
export type Received =
  | { readonly status: 'received'; readonly sha256: string; readonly sizeBytes: number }
  | { readonly status: 'too-large' }
  | { readonly status: 'cut-short' }

class CutShort extends Error {}

/**
 * Writes a stream to a new file as it comes, and makes sure that it is on the disk. Of anything but
 * a whole file nothing stays.
 *
 * @param file must not be there yet
 * @param mostBytes the stream is left as soon as it has given more
 * @throws Error where the disk does not take it
 */
export async function receiveFile(
  content: ReadableStream<Uint8Array>,
  file: string,
  mostBytes: number,
  longestSilenceMs = LONGEST_SILENCE_MS,
): Promise<Received> {
  const reader = content.getReader()
  let received: Received | null = null
  try {
    received = await write(piecesOf(reader, longestSilenceMs), file, mostBytes)
  } catch (error) {
    if (!(error instanceof CutShort)) throw error
    received = { status: 'cut-short' }
  } finally {
    if (received?.status !== 'received') {
      await rm(file, { force: true })
      // Not waited for: a sender that fell silent may never answer.
      void reader.cancel().catch(() => undefined)
    }
  }
  return received
}

async function write(
  pieces: AsyncIterable<Uint8Array>,
  file: string,
  mostBytes: number,
): Promise<Received> {
  const handle: FileHandle = await open(file, 'wx', 0o600)
  const hash = createHash('sha256')
  let sizeBytes = 0
  try {
    for await (const piece of pieces) {
      sizeBytes += piece.byteLength
      if (sizeBytes > mostBytes) return { status: 'too-large' }
      hash.update(piece)
      await handle.writeFile(piece)
    }
    await handle.sync()
  } finally {
    await handle.close()
  }
  return { status: 'received', sha256: hash.digest('hex'), sizeBytes }
}

async function* piecesOf(
  reader: ReadableStreamDefaultReader<Uint8Array>,
  longestSilenceMs: number,
): AsyncGenerator<Uint8Array> {
  for (;;) {
    const { done, value } = await withinSilence(reader.read(), longestSilenceMs)
    if (done) return
    yield value
  }
}

function withinSilence<Value>(value: Promise<Value>, longestMs: number): Promise<Value> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new CutShort()), longestMs)
    value.then(resolve, () => reject(new CutShort())).finally(() => clearTimeout(timer))
  })
}
