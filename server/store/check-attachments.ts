import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { readdir, stat } from 'node:fs/promises'
import { basename, join } from 'node:path'
import { ATTACHMENTS_FOLDER, attachmentPath, SHOWN } from './attachment-files.ts'
import type { Database } from './database.ts'

/** How the attached files stand to the rows that refer to them. */
export interface AttachmentsCheck {
  /** Contents that are as they were taken in. */
  readonly whole: number
  /** Ids of attachments whose content is not there. */
  readonly missing: readonly string[]
  /** Files whose content is no longer what their name, its SHA-256, says. */
  readonly altered: readonly string[]
  /** Files that no row refers to: left by a purge or an upload that was cut short. */
  readonly unreferenced: readonly string[]
}

/** Reads every attached file; a deleted attachment still refers to its own. */
export async function checkAttachments(
  database: Database,
  dataFolder: string,
): Promise<AttachmentsCheck> {
  const folder = join(dataFolder, ATTACHMENTS_FOLDER)
  // Files first: one that comes meanwhile is not missed, since its row comes later.
  const files = await originalsIn(folder)
  const rows = await database.query.selectFrom('attachments').select(['id', 'sha256']).execute()
  const referred = new Set(rows.map(({ sha256 }) => sha256))
  const altered: string[] = []
  for (const file of files) {
    if ((await sha256Of(file)) !== basename(file)) altered.push(file)
  }
  const isThere = await thereOf(folder, referred)
  return {
    whole: files.length - altered.length,
    missing: rows.filter(({ sha256 }) => !isThere.has(sha256)).map(({ id }) => id),
    altered,
    unreferenced: files.filter((file) => !referred.has(basename(file))),
  }
}

/** Paths of the originals, by name. */
export async function originalsIn(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { withFileTypes: true, recursive: true }).catch(
    (error: NodeJS.ErrnoException) => {
      if (error.code === 'ENOENT') return []
      throw error
    },
  )
  return entries
    .filter((entry) => entry.isFile() && entry.parentPath !== folder)
    .filter(({ name }) => !name.endsWith(SHOWN))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
}

async function thereOf(folder: string, hashes: ReadonlySet<string>): Promise<Set<string>> {
  const there = new Set<string>()
  for (const sha256 of hashes) {
    const found = await stat(attachmentPath(folder, sha256)).catch(() => null)
    if (found?.isFile()) there.add(sha256)
  }
  return there
}

async function sha256Of(file: string): Promise<string> {
  const hash = createHash('sha256')
  for await (const piece of createReadStream(file)) hash.update(piece)
  return hash.digest('hex')
}
