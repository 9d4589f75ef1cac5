import { createHash } from 'node:crypto'
import type { Kysely } from 'kysely'
import type { Tables } from './tables.ts'

/** SHA-256 in hexadecimal digits of a feeder's text as it is kept. */
export function hashOfFeeder(text: string): string {
  return createHash('sha256').update(text).digest('hex')
}

/**
 * Holds the kept versions of feeders against the history. Versions taken in before the history
 * held their hash can only be looked for. Gives in words what is wrong.
 */
export async function checkFeeders(db: Kysely<Tables>): Promise<string[]> {
  const entries = await db
    .selectFrom('history')
    .select(['subject_id', 'version', 'after'])
    .where('subject', '=', 'feeder')
    .orderBy('seq')
    .execute()
  const faults: string[] = []
  for (const { subject_id, version, after } of entries) {
    const kept = await db
      .selectFrom('feeder_versions')
      .select('feeder')
      .where('feeder_id', '=', subject_id)
      .where('version', '=', version)
      .executeTakeFirst()
    const fault = faultOf(kept?.feeder, after)
    if (fault) faults.push(`Version ${version} of feeder ${subject_id} ${fault}.`)
  }
  return faults
}

function faultOf(text: string | undefined, after: string | null): string | null {
  if (text === undefined) return 'is missing'
  const { sha256 } = JSON.parse(after ?? '{}') as { sha256?: string }
  if (sha256 === undefined || sha256 === hashOfFeeder(text)) return null
  return 'is not as the history left it'
}
