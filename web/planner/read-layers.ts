/** Layer files by name with their parsed content, and what could not be parsed. */
export interface ReadLayers {
  readonly layers: Readonly<Record<string, unknown>>
  readonly faults: readonly string[]
}

const IS_LAYER = /\.(geo)?json$/i

/** Reads the files of a feeder folder as JSON; each that is none is named with its reason. */
export async function readLayers(files: readonly File[]): Promise<ReadLayers> {
  const layers: Record<string, unknown> = {}
  const faults: string[] = []
  for (const file of files.filter(({ name }) => IS_LAYER.test(name))) {
    try {
      layers[file.name] = JSON.parse(await file.text())
    } catch (error) {
      faults.push(`${file.name} is not JSON: ${error instanceof Error ? error.message : error}`)
    }
  }
  if (layers['feeder.json'] === undefined && faults.length === 0) {
    faults.push('feeder.json is missing. Choose all files of the feeder folder at once.')
  }
  return { layers, faults }
}
