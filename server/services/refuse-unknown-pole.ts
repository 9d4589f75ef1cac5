import { findFeeder } from './find-feeder.ts'
import type { Store } from './ports.ts'
import { Refusal } from './refusal.ts'

/**
 * Refuses what is said of a pole that the newest version of the feeder does not have.
 *
 * @param pole undefined for what is on no pole; the feeder is looked for all the same
 * @param at where the request names it
 * @throws Refusal `not-found` without the feeder, `malformed-request` without the pole
 */
export async function refuseUnknownPole(
  store: Pick<Store, 'feeders'>,
  feederId: string,
  pole: string | undefined,
  at = 'body.pole',
): Promise<void> {
  const { feeder } = await findFeeder(store, feederId)
  if (pole === undefined || feeder.poles.some(({ id }) => id === pole)) return
  throw new Refusal('malformed-request', `Feeder "${feederId}" has no pole "${pole}".`, {
    faults: [{ at, what: 'names no pole of the feeder' }],
  })
}
