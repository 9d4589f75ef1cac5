import { existsSync } from 'node:fs'
import { readdir, readFile } from 'node:fs/promises'
import { basename, join } from 'node:path'
import type {
  LandCollection,
  LayerReading,
  Origin,
  ShippedData,
  ShippedFeeder,
  ShippedLand,
} from '../services/ports.ts'

type ReadFolder = (folder: string) => Promise<LayerReading>

interface FoundFeeder extends ShippedFeeder {
  readonly placeId: string | null
}

const LAND_FOLDER = 'land'

/**
 * Looks through the data that comes with the program: `demo` and `published` hold one folder
 * per feeder, and `demo` the land of their place. Nothing is read whole until it is asked for.
 */
export async function listShippedData(
  geodataFolder: string,
  readFolder: ReadFolder,
): Promise<ShippedData> {
  const demoFolder = join(geodataFolder, 'demo')
  const demo = await findFeeders(demoFolder, 'demo', readFolder)
  const published = await findFeeders(join(geodataFolder, 'published'), 'published', readFolder)
  return { feeders: [...demo, ...published], lands: landsOf(join(demoFolder, LAND_FOLDER), demo) }
}

async function findFeeders(
  folder: string,
  origin: Origin,
  readFolder: ReadFolder,
): Promise<FoundFeeder[]> {
  if (!existsSync(folder)) return []
  const names = (await readdir(folder)).sort()
  const found = names.map((name) => findFeeder(join(folder, name), origin, readFolder))
  return (await Promise.all(found)).filter((feeder) => feeder !== null)
}

/** The id stands in the header, not in the folder's name. */
async function findFeeder(
  folder: string,
  origin: Origin,
  readFolder: ReadFolder,
): Promise<FoundFeeder | null> {
  const headerFile = join(folder, 'feeder.json')
  if (!existsSync(headerFile)) return null
  const header = (await readJson(headerFile)) as { id?: string; place?: string }
  return {
    id: header.id ?? basename(folder),
    placeId: header.place ?? null,
    origin,
    read: () => readFolder(folder),
  }
}

function landsOf(folder: string, feeders: readonly FoundFeeder[]): ShippedLand[] {
  if (!existsSync(folder)) return []
  const places = new Set(feeders.map(({ placeId }) => placeId).filter((id) => id !== null))
  return [...places].map((placeId) => ({ placeId, read: () => readLand(folder) }))
}

/** Every GeoJSON file of a folder, by its name. */
export async function readLand(folder: string): Promise<Record<string, LandCollection>> {
  const files = (await readdir(folder)).filter((name) => name.endsWith('.geojson')).sort()
  const layers = files.map(async (name) => {
    const collection = (await readJson(join(folder, name))) as LandCollection
    return [basename(name, '.geojson'), collection] as const
  })
  return Object.fromEntries(await Promise.all(layers))
}

async function readJson(file: string): Promise<unknown> {
  return JSON.parse(await readFile(file, 'utf8'))
}
