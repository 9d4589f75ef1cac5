import type { LandAnswer } from '#contract/land.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'

/** @throws Refusal `not-found` */
export async function getLand(
  { store }: Pick<Ports, 'store'>,
  placeId: string,
): Promise<LandAnswer> {
  const layers = await store.land.find(placeId)
  if (!layers) throw new Refusal('not-found', `There is no base map for the place "${placeId}".`)
  return { layers }
}
