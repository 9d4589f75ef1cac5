import type { Store, StoredFeeder } from './ports.ts'
import { Refusal } from './refusal.ts'

/**
 * The named version of a feeder, or its newest.
 *
 * @throws Refusal `not-found`
 */
export async function findFeeder(
  store: Pick<Store, 'feeders'>,
  feederId: string,
  version?: number,
): Promise<StoredFeeder> {
  const stored = await store.feeders.find(feederId, version)
  if (stored) return stored
  const which = version === undefined ? '' : ` of version ${version}`
  throw new Refusal('not-found', `There is no feeder "${feederId}"${which} in the record.`)
}
