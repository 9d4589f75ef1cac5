import { createHash, type Hash } from 'node:crypto'
import { createReadStream, createWriteStream } from 'node:fs'
import { mkdir, mkdtemp, rm, stat } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { Readable, Transform } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { createGzip } from 'node:zlib'
import { type Pack, pack } from 'tar-stream'
import { attachmentPath } from '../attachment-files.ts'
import { attachmentsNamed, historyHead } from './archive-facts.ts'
import { lineOf } from './cell.ts'
import { splitForBackup } from './left-out.ts'
import { type AttachmentEntry, MANIFEST_FILE, type Manifest, type TableEntry } from './manifest.ts'
import { replaceFile, SPOOL } from './safe-file.ts'
import type { Snapshot } from './snapshot.ts'
import type { TableForm } from './table-form.ts'

/** It holds password hashes: only who runs the server may read it. */
const OWNER_ONLY = 0o600

export interface ArchiveSource {
  readonly snapshot: Snapshot
  /** Where the attached files lie; null leaves them out. */
  readonly attachmentsFolder: string | null
  readonly version: string
  readonly lastMigration: string
  readonly takenAt: string
}

export interface WrittenArchive {
  readonly file: string
  readonly sizeBytes: number
  readonly manifest: Manifest
  /** Hashes of attached files that the record names and the folder does not hold. */
  readonly missing: readonly string[]
}

/** Told how far it is: parts are tables and attached files. */
export type OnProgress = (done: number, total: number, phase: string) => void

/** Writes a gzip-compressed tar; the place holds it whole or not at all. */
export async function writeArchive(
  source: ArchiveSource,
  file: string,
  onProgress: OnProgress = () => undefined,
): Promise<WrittenArchive> {
  await mkdir(dirname(file), { recursive: true })
  const spoolFolder = await mkdtemp(join(dirname(file), SPOOL))
  try {
    const written: { manifest: Manifest; missing: string[] }[] = []
    await replaceFile(file, async (unfinished) => {
      const tar = pack()
      const target = createWriteStream(unfinished, { flags: 'wx', mode: OWNER_ONLY })
      const streamed = pipeline(tar, createGzip(), target)
      const filled = fill(tar, source, spoolFolder, onProgress)
      filled.catch((error: Error) => tar.destroy(error))
      await Promise.all([streamed, filled.then((each) => written.push(each))])
    })
    const [archive] = written
    if (!archive) throw new Error('Expected a manifest, got none.')
    return { file, sizeBytes: (await stat(file)).size, ...archive }
  } finally {
    await rm(spoolFolder, { recursive: true, force: true })
  }
}

async function fill(
  tar: Pack,
  source: ArchiveSource,
  spoolFolder: string,
  onProgress: OnProgress,
): Promise<{ manifest: Manifest; missing: string[] }> {
  const { snapshot, attachmentsFolder, version, lastMigration, takenAt } = source
  const { kept, leftOut } = splitForBackup(snapshot.tables)
  const named = attachmentsFolder === null ? [] : await attachmentsNamed(snapshot)
  const total = kept.length + named.length
  const tables: TableEntry[] = []
  for (const table of kept) {
    onProgress(tables.length, total, `Table ${table.name}`)
    tables.push(await addTable(tar, snapshot, table, spoolFolder, takenAt))
  }
  const attachments: AttachmentEntry[] = []
  const missing: string[] = []
  for (const sha256 of named) {
    onProgress(kept.length + attachments.length + missing.length, total, 'Attached files')
    const entry = await addAttachment(tar, attachmentsFolder ?? '', sha256, takenAt)
    if (entry === null) missing.push(sha256)
    else attachments.push(entry)
  }
  onProgress(total, total, 'Manifest')
  const manifest: Manifest = {
    form: 'crossarm archive 1',
    version,
    lastMigration,
    takenAt,
    kind: snapshot.kind,
    tables,
    leftOut,
    attachments: attachmentsFolder === null ? null : attachments,
    historyHead: await historyHead(snapshot),
  }
  const text = `${JSON.stringify(manifest, null, 2)}\n`
  await addEntry(tar, MANIFEST_FILE, Buffer.byteLength(text), takenAt, Readable.from([text]))
  tar.finalize()
  return { manifest, missing }
}

/** The tar has the size in front, so the lines go through a file. */
async function addTable(
  tar: Pack,
  snapshot: Snapshot,
  table: TableForm,
  spoolFolder: string,
  takenAt: string,
): Promise<TableEntry> {
  const spool = join(spoolFolder, table.name)
  const hash = createHash('sha256')
  let rows = 0
  async function* lines() {
    for await (const row of snapshot.rows(table)) {
      rows++
      yield `${lineOf(row, table)}\n`
    }
  }
  await pipeline(
    Readable.from(lines()),
    hashing(hash),
    createWriteStream(spool, { mode: OWNER_ONLY }),
  )
  const { size } = await stat(spool)
  await addEntry(tar, `tables/${table.name}.jsonl`, size, takenAt, createReadStream(spool))
  await rm(spool)
  return { name: table.name, rows, sha256: hash.digest('hex') }
}

async function addAttachment(
  tar: Pack,
  folder: string,
  sha256: string,
  takenAt: string,
): Promise<AttachmentEntry | null> {
  const file = attachmentPath(folder, sha256)
  const found = await stat(file).catch(() => null)
  if (!found?.isFile()) return null
  const hash = createHash('sha256')
  const content = createReadStream(file).pipe(hashing(hash))
  await addEntry(tar, `attachments/${sha256}`, found.size, takenAt, content)
  const actual = hash.digest('hex')
  if (actual !== sha256) {
    throw new Error(`The attached file ${file} is not what was attached: its hash is ${actual}.`)
  }
  return { sha256, sizeBytes: found.size }
}

async function addEntry(
  tar: Pack,
  name: string,
  size: number,
  takenAt: string,
  content: Readable,
): Promise<void> {
  const header = { name, size, mode: OWNER_ONLY, mtime: new Date(takenAt) }
  await pipeline(content, tar.entry(header))
}

function hashing(hash: Hash): Transform {
  return new Transform({
    transform(chunk: Buffer, _encoding, done) {
      hash.update(chunk)
      done(null, chunk)
    },
  })
}
