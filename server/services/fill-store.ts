import type { Ports, ShippedData, ShippedFeeder, Stamp } from './ports.ts'

/**
 * In the history, for what no person recorded here. The role is that of the people who keep
 * the bird record, as every entry of the history has one.
 */
const SHIPPED_BY = { id: 'came-with-the-feeder', role: 'coordinator' } as const

/** Errors of a shipped feeder that could not be taken in, in words. */
export interface FillReport {
  readonly added: readonly string[]
  readonly refused: readonly string[]
}

/**
 * Takes in the shipped feeders and base maps that the store does not hold. What it holds is
 * left as it is, so a start that was cut short is completed by the next one.
 */
export async function fillStore(
  { store, clock }: Pick<Ports, 'store' | 'clock'>,
  shipped: ShippedData,
): Promise<FillReport> {
  const stamp: Stamp = { actor: SHIPPED_BY, at: clock() }
  const known = new Set((await store.feeders.list()).map(({ id }) => id))
  const added: string[] = []
  const refused: string[] = []
  for (const { placeId, read } of shipped.lands) {
    if ((await store.land.find(placeId)) === null) await store.land.keep(placeId, await read())
  }
  for (const feeder of shipped.feeders.filter(({ id }) => !known.has(id))) {
    const words = await takeIn(store, feeder, stamp)
    if (words === null) added.push(feeder.id)
    else refused.push(words)
  }
  return { added, refused }
}

async function takeIn(
  store: Ports['store'],
  { id, origin, read }: ShippedFeeder,
  stamp: Stamp,
): Promise<string | null> {
  const { feeder, findings } = await read()
  if (!feeder) {
    const errors = findings.filter(({ severity }) => severity === 'error')
    return `Feeder "${id}" was not taken in: ${errors.map(({ what }) => what).join(' ')}`
  }
  await store.feeders.add(feeder, origin, stamp)
  return null
}
