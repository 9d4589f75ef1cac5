import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { mkdir, open, readFile, statfs } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { Writable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { createGunzip } from 'node:zlib'
import { type Extract, extract, type Header } from 'tar-stream'
import { MANIFEST_FILE, type Manifest, readManifest, TABLE_NAME } from './manifest.ts'

/** Far more than a manifest of a million attached files takes. */
const MOST_MANIFEST_BYTES = 256 * 1024 * 1024

type Entry = Extract extends AsyncIterable<infer Each> ? Each : never

/** What was measured of one member while it was taken out. */
interface Member {
  readonly sizeBytes: number
  readonly sha256: string
  readonly lines: number
}

/** A verified archive, taken out into a folder. */
export interface TakenOut {
  readonly manifest: Manifest
  /** File of a table's lines. */
  readonly tableFile: (name: string) => string
  readonly attachmentFile: (sha256: string) => string
}

/**
 * Takes an archive out into a folder and holds everything in it against its manifest. Only names
 * of the form that is written are taken, and only plain files, so that nothing outside of the
 * folder is ever touched.
 *
 * @throws Error saying what is wrong with the archive
 */
export async function takeOutArchive(file: string, folder: string): Promise<TakenOut> {
  try {
    const members = await takeOut(file, folder)
    const manifest = readManifest(await readFile(join(folder, MANIFEST_FILE), 'utf8'))
    holdAgainst(manifest, members)
    return {
      manifest,
      tableFile: (name) => join(folder, tablePath(name)),
      attachmentFile: (sha256) => join(folder, attachmentPath(sha256)),
    }
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error)
    throw new Error(`The archive ${file} cannot be used: ${reason}`, { cause: error })
  }
}

const tablePath = (name: string) => `tables/${name}.jsonl`
const attachmentPath = (sha256: string) => `attachments/${sha256}`

async function takeOut(file: string, folder: string): Promise<Map<string, Member>> {
  const members = new Map<string, Member>()
  const tar = extract()
  const takeEach = async () => {
    for await (const entry of tar) {
      const { name } = entry.header
      refuseMember(entry.header, members)
      members.set(name, await takeMember(entry, join(folder, name)))
    }
  }
  await Promise.all([pipeline(createReadStream(file), createGunzip(), tar), takeEach()])
  if (members.has(MANIFEST_FILE)) return members
  throw new Error('It has no manifest: it is cut off, or no archive of Crossarm.')
}

function refuseMember({ name, type, size }: Header, members: ReadonlyMap<string, Member>): void {
  const shown = JSON.stringify(name)
  if (type !== 'file') throw new Error(`It holds ${shown}, which is no plain file but a ${type}.`)
  if (!isKnownName(name)) throw new Error(`It holds ${shown}, which no archive has.`)
  if (members.has(name)) throw new Error(`It holds ${shown} twice.`)
  if (name === MANIFEST_FILE && size > MOST_MANIFEST_BYTES) {
    throw new Error(`Its manifest is larger than ${MOST_MANIFEST_BYTES} bytes.`)
  }
}

function isKnownName(name: string): boolean {
  if (name === MANIFEST_FILE || /^attachments\/[0-9a-f]{64}$/.test(name)) return true
  const [, table] = /^tables\/([^/]+)\.jsonl$/.exec(name) ?? []
  return table !== undefined && TABLE_NAME.test(table)
}

async function takeMember(entry: Entry, file: string): Promise<Member> {
  await mkdir(dirname(file), { recursive: true })
  await refuseTooLarge(entry.header.size, dirname(file))
  const hash = createHash('sha256')
  let sizeBytes = 0
  let lines = 0
  const handle = await open(file, 'wx', 0o600)
  try {
    const measure = new Writable({
      write(chunk: Buffer, _encoding, done) {
        hash.update(chunk)
        sizeBytes += chunk.length
        lines += countLines(chunk)
        writeAll(handle, chunk).then(() => done(), done)
      },
    })
    await pipeline(entry, measure)
    await handle.sync()
  } finally {
    await handle.close()
  }
  return { sizeBytes, sha256: hash.digest('hex'), lines }
}

async function writeAll(handle: { write: Writing }, chunk: Buffer): Promise<void> {
  for (let at = 0; at < chunk.length; ) at += (await handle.write(chunk, at)).bytesWritten
}

type Writing = (chunk: Buffer, offset: number) => Promise<{ readonly bytesWritten: number }>

async function refuseTooLarge(sizeBytes: number, folder: string): Promise<void> {
  const { bavail, bsize } = await statfs(folder)
  const free = bavail * bsize
  if (sizeBytes > free) {
    throw new Error(`It needs ${sizeBytes} bytes more, and the disk has ${free} free.`)
  }
}

const NEWLINE = 0x0a

function countLines(chunk: Buffer): number {
  let lines = 0
  for (let at = chunk.indexOf(NEWLINE); at >= 0; at = chunk.indexOf(NEWLINE, at + 1)) lines++
  return lines
}

/** @throws Error naming the first thing that is missing, too much or not as it was */
function holdAgainst(manifest: Manifest, members: ReadonlyMap<string, Member>): void {
  const expected = new Set([MANIFEST_FILE])
  for (const { name, rows, sha256 } of manifest.tables) {
    const member = memberOf(members, tablePath(name), sha256)
    if (member.lines !== rows) {
      throw new Error(`Table ${name} has ${member.lines} rows where its manifest says ${rows}.`)
    }
    expected.add(tablePath(name))
  }
  for (const { sha256, sizeBytes } of manifest.attachments ?? []) {
    const member = memberOf(members, attachmentPath(sha256), sha256)
    if (member.sizeBytes !== sizeBytes) throw new Error(`Attached file ${sha256} has a wrong size.`)
    expected.add(attachmentPath(sha256))
  }
  const extra = [...members.keys()].find((name) => !expected.has(name))
  if (extra !== undefined) throw new Error(`It holds ${extra}, which its manifest does not name.`)
}

function memberOf(members: ReadonlyMap<string, Member>, name: string, sha256: string): Member {
  const member = members.get(name)
  if (!member) throw new Error(`It lacks ${name}, which its manifest names.`)
  if (member.sha256 !== sha256) throw new Error(`${name} in it is not what was written.`)
  return member
}
