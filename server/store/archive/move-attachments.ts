import { createHash } from 'node:crypto'
import { createReadStream, existsSync } from 'node:fs'
import { copyFile, mkdir } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { ATTACHMENTS_FOLDER, attachmentPath } from '../attachment-files.ts'
import { attachmentsNamed } from './archive-facts.ts'
import { replaceFile } from './safe-file.ts'
import type { Snapshot } from './snapshot.ts'

/**
 * Holds attached files against their hashes, and copies them into another data folder where one is
 * named. What is there already is not copied twice.
 *
 * @throws Error naming a file that is not what was attached
 */
export async function moveAttachments(
  snapshot: Snapshot,
  dataFolder: string,
  filesTo: string | undefined,
): Promise<{ attachments: number; missing: string[] }> {
  const named = await attachmentsNamed(snapshot)
  const missing: string[] = []
  for (const sha256 of named) {
    const file = attachmentPath(join(dataFolder, ATTACHMENTS_FOLDER), sha256)
    if (!existsSync(file)) missing.push(sha256)
    else if (filesTo === undefined) await holdFile(file, sha256)
    else
      await copyAttachment(file, attachmentPath(join(filesTo, ATTACHMENTS_FOLDER), sha256), sha256)
  }
  return { attachments: named.length - missing.length, missing }
}

async function copyAttachment(from: string, to: string, sha256: string): Promise<void> {
  if (existsSync(to)) return holdFile(to, sha256)
  await mkdir(dirname(to), { recursive: true })
  await replaceFile(to, async (unfinished) => {
    await copyFile(from, unfinished)
    await holdFile(unfinished, sha256)
  })
}

async function holdFile(file: string, sha256: string): Promise<void> {
  const hash = createHash('sha256')
  await pipeline(createReadStream(file), hash)
  const actual = hash.digest('hex')
  if (actual === sha256) return
  throw new Error(`The attached file ${file} is not what was attached: its hash is ${actual}.`)
}
