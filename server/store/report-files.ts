import { createHash, randomUUID } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { mkdir, open, readdir, rename, rm, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import type { ReportFiles, WrittenReport } from '../services/report-ports.ts'

export const REPORTS_FOLDER = 'reports'

/** Ends the name of a file that is not whole yet. */
const UNFINISHED = '.part'
/** No report takes so long; what was not written to since is of a worker that died. */
const UNFINISHED_MS = 3_600_000

/**
 * Reports in the folder `reports` beside the database, each under the id of its work.
 *
 * @param dataFolder one for all servers and workers of a database
 */
export function reportFiles(dataFolder: string): ReportFiles {
  const folder = join(dataFolder, REPORTS_FOLDER)
  return {
    write: async (workId, pieces, keptMs) => {
      await mkdir(folder, { recursive: true })
      await removeOld(folder, keptMs)
      return write(folder, pathOf(folder, workId), pieces)
    },
    open: async (workId) => {
      const file = pathOf(folder, workId)
      const handle = await open(file, 'r').catch(ignoreMissing)
      if (!handle) return null
      const { size } = await handle.stat()
      const stream = createReadStream(file, { fd: handle })
      return { content: Readable.toWeb(stream) as ReadableStream<Uint8Array>, sizeBytes: size }
    },
  }
}

function pathOf(folder: string, workId: string): string {
  if (!/^[\w-]{1,80}$/.test(workId))
    throw new Error(`Expected the id of a report, got "${workId}".`)
  return join(folder, workId)
}

async function write(
  folder: string,
  target: string,
  pieces: AsyncIterable<string>,
): Promise<WrittenReport> {
  const unfinished = join(folder, randomUUID() + UNFINISHED)
  const discard = () => rm(unfinished, { force: true })
  const hash = createHash('sha256')
  let sizeBytes = 0
  const handle = await open(unfinished, 'wx')
  try {
    for await (const piece of pieces) {
      const bytes = Buffer.from(piece)
      hash.update(bytes)
      sizeBytes += bytes.length
      await handle.write(bytes)
    }
    await handle.sync()
  } catch (error) {
    await discard()
    throw error
  } finally {
    await handle.close()
  }
  return {
    sizeBytes,
    sha256: hash.digest('hex'),
    place: () => rename(unfinished, target),
    discard,
  }
}

async function removeOld(folder: string, reportsMs: number): Promise<void> {
  for (const name of await readdir(folder)) {
    const file = join(folder, name)
    const found = await stat(file).catch(ignoreMissing)
    const keptMs = name.endsWith(UNFINISHED) ? UNFINISHED_MS : reportsMs
    if (found && Date.now() - found.mtimeMs > keptMs) await rm(file, { force: true })
  }
}

function ignoreMissing(error: unknown): undefined {
  if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined
  throw error
}
