import { call } from './call.ts'
import { handOver } from './hand-over.ts'

export const BIRD_FILES = {
  poles: 'takeOutBirdPoles',
  finds: 'takeOutIncidents',
} as const
export type BirdFile = keyof typeof BIRD_FILES

/** Fetches poles or finds of a feeder as a file and hands it to the browser to be saved. */
export async function takeOutBirds(
  feederId: string,
  of: BirdFile,
  as: 'csv' | 'geojson',
): Promise<void> {
  const file = await call(BIRD_FILES[of], { params: { feederId }, query: { as } })
  if (!(file instanceof Blob)) throw new Error('Expected a file, got something else.')
  handOver(file, `${feederId}-bird-${of}.${as}`)
}
