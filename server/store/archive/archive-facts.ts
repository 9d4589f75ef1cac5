import type { ChainHead } from './manifest.ts'
import type { Snapshot } from './snapshot.ts'

/**
 * Last step that the tables have taken.
 *
 * @throws Error where the database is none of this program
 */
export async function lastStep({ tables, ask }: Snapshot): Promise<string> {
  const hasSteps = tables.some(({ name }) => name === 'kysely_migration')
  const [last] = hasSteps ? await ask('select max(name) as name from kysely_migration') : []
  if (typeof last?.name === 'string') return last.name
  throw new Error('The database holds no tables of Crossarm.')
}

/** Hashes of attached files that the record names, deleted ones too; none before there were any. */
export async function attachmentsNamed({ tables, ask }: Snapshot): Promise<string[]> {
  if (!tables.some(({ name }) => name === 'attachments')) return []
  const rows = await ask('select distinct sha256 from attachments')
  return rows.map(({ sha256 }) => String(sha256)).sort()
}

/** End of the chain of the history; null before there was a chain, or an entry. */
export async function historyHead({ tables, ask }: Snapshot): Promise<ChainHead | null> {
  const history = tables.find(({ name }) => name === 'history')
  if (!history?.columns.some(({ name }) => name === 'hash')) return null
  const [last] = await ask('select seq, hash from history order by seq desc limit 1')
  return last ? { seq: Number(last.seq), hash: String(last.hash) } : null
}
