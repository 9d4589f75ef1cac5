import type { Transaction } from 'kysely'
import type { Stamp } from '../services/ports.ts'
import type { Database } from './database.ts'
import type { Tables } from './tables.ts'

export interface HistoryEntry {
  readonly subject: 'feeder' | 'proposal' | 'protection'
  readonly feederId: string
  readonly subjectId: string
  /** The version that came of the change; each is written once. */
  readonly version: number
  readonly before: unknown
  readonly after: unknown
}

/** Written in the transaction of the change itself, so that neither stands without the other. */
export async function appendHistory(
  transaction: Transaction<Tables>,
  entry: HistoryEntry,
  { actor, at }: Stamp,
): Promise<void> {
  await transaction
    .insertInto('history')
    .values({
      subject: entry.subject,
      feeder_id: entry.feederId,
      subject_id: entry.subjectId,
      version: entry.version,
      at,
      actor_id: actor.id,
      actor_role: actor.role,
      before: entry.before === null ? null : JSON.stringify(entry.before),
      after: JSON.stringify(entry.after),
    })
    .execute()
}

/** All changes of one subject, oldest first. */
export function readHistory(
  db: Database,
  subject: HistoryEntry['subject'],
  feederId: string,
  subjectId: string,
) {
  return db.query
    .selectFrom('history')
    .selectAll()
    .where('subject', '=', subject)
    .where('feeder_id', '=', feederId)
    .where('subject_id', '=', subjectId)
    .orderBy('version')
    .execute()
}
