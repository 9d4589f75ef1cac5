import type { Actor } from '#contract/actor.ts'
import type { LandAnswer } from '#contract/land.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'
import { authorize } from './role-rules.ts'

/** @throws Refusal `not-found` */
export async function getLand(
  { store }: Pick<Ports, 'store'>,
  actor: Actor,
  placeId: string,
): Promise<LandAnswer> {
  authorize(actor, 'read')
  const layers = await store.land.find(placeId)
  if (!layers) throw new Refusal('not-found', `There is no base map for the place "${placeId}".`)
  return { layers }
}
