import { z } from 'zod'

const Sha256 = z.string().regex(/^[0-9a-f]{64}$/)
const Count = z.number().int().min(0)

/** Name of a table: it becomes a file's name. */
export const TABLE_NAME = /^[A-Za-z_][A-Za-z0-9_]{0,62}$/

const TableEntry = z.object({
  name: z.string().regex(TABLE_NAME),
  rows: Count,
  /** Of the lines as they stand in the archive. */
  sha256: Sha256,
})

const AttachmentEntry = z.object({ sha256: Sha256, sizeBytes: Count })

/** What an archive holds, and by what it is held against. Stands at its end, so that a cut-off archive has none. */
export const Manifest = z.object({
  form: z.literal('crossarm archive 1'),
  /** Of the program that wrote it. */
  version: z.string(),
  /** Last step that the tables had taken. */
  lastMigration: z.string(),
  takenAt: z.iso.datetime(),
  kind: z.enum(['sqlite', 'postgres']),
  /** Each after those that it refers to. */
  tables: z.array(TableEntry),
  /** Tables that are not in it. */
  leftOut: z.array(z.string()),
  /** Null where the attached files were left where they are. */
  attachments: z.array(AttachmentEntry).nullable(),
  /** End of the chain of the history; null where there was no chain or no history yet. */
  historyHead: z.object({ seq: Count, hash: Sha256 }).nullable(),
})

export type Manifest = z.infer<typeof Manifest>
export type ChainHead = NonNullable<Manifest['historyHead']>
export type TableEntry = z.infer<typeof TableEntry>
export type AttachmentEntry = z.infer<typeof AttachmentEntry>

export const MANIFEST_FILE = 'manifest.json'

/** @throws Error saying what is wrong with it */
export function readManifest(text: string): Manifest {
  let json: unknown
  try {
    json = JSON.parse(text)
  } catch {
    throw new Error('Its manifest is not JSON.')
  }
  const read = Manifest.safeParse(json)
  if (read.success) return read.data
  const [issue] = read.error.issues
  throw new Error(
    `Its manifest does not fit: ${issue?.path.join('.') ?? ''} ${issue?.message ?? ''}.`,
  )
}
