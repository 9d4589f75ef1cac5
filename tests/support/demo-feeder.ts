import { fileURLToPath } from 'node:url'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { readFeederFolder } from '../../server/layer-files/feeder-folder.ts'

/** One of the demo's feeders as its files have it. */
export async function readDemoFeeder(id: string): Promise<Feeder> {
  const folder = fileURLToPath(new URL(`../../geodata/demo/${id}`, import.meta.url))
  const { feeder } = await readFeederFolder(folder)
  if (!feeder) throw new Error(`The demo feeder ${id} cannot be read.`)
  return feeder
}
