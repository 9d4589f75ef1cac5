import { readdir, readFile, stat } from 'node:fs/promises'
import { join } from 'node:path'
import type { Finding } from '#domain/feeder/finding.ts'
import { readJson } from './json-text.ts'
import { finding } from './layer-finding.ts'
import { FEATURE_LAYERS, HEADER_FILE, LAYER_FILES } from './layer-table.ts'
import { unzipLayers } from './unzip-layers.ts'

/** Parsed content by file name. */
export interface FolderFiles {
  readonly layers: Readonly<Record<string, unknown>>
  /** True where the folder, the zip or a file of it could not be read. */
  readonly findings: readonly Finding[]
}

/** A feeder of 100,000 poles folds to some 10 MB. */
const MOST_ZIP_BYTES = 256 * 1024 * 1024

const FEEDER = { layer: 'feeder' } as const

/** Reads the layer files of a folder, or of one zip of it; other files are left alone. */
export async function readFolderFiles(folder: string): Promise<FolderFiles> {
  const info = await stat(folder).catch(() => null)
  if (!info) {
    const what = `There is no folder or zip at ${folder}.`
    const remedy = 'Check the path.'
    return { layers: {}, findings: [finding('error', 'no-such-folder', FEEDER, what, remedy)] }
  }
  if (info.isDirectory()) return readDirectory(folder)
  return info.size > MOST_ZIP_BYTES
    ? badZip('it is larger than 256 MB')
    : readZip(await readFile(folder))
}

async function readDirectory(folder: string): Promise<FolderFiles> {
  const names = (await readdir(folder)).sort()
  const texts = new Map<string, string>()
  for (const name of names.filter((each) => LAYER_FILES.has(each))) {
    texts.set(name, await readFile(join(folder, name), 'utf8'))
  }
  return parseTexts(texts, names)
}

/** Reads a zip of a folder; the layer files may stand in one folder inside it. */
function readZip(bytes: Uint8Array): FolderFiles {
  try {
    const { texts, names } = unzipLayers(bytes, (name) => LAYER_FILES.has(name))
    return parseTexts(texts, names)
  } catch (error) {
    return badZip(error instanceof Error ? error.message : String(error))
  }
}

function badZip(reason: string): FolderFiles {
  const what = `The file cannot be read as a zip of a feeder folder: ${reason}.`
  const remedy = 'Zip the folder again, with each layer once.'
  return { layers: {}, findings: [finding('error', 'bad-zip', FEEDER, what, remedy)] }
}

function parseTexts(texts: ReadonlyMap<string, string>, names: readonly string[]): FolderFiles {
  const layers: Record<string, unknown> = {}
  const findings: Finding[] = []
  for (const [name, text] of texts) {
    const reading = readJson(text.replace(/^\uFEFF/, ''))
    if (reading.isValid) layers[name] = reading.value
    else {
      layers[name] = null
      const layer = FEATURE_LAYERS.find(({ fileName }) => fileName === name)?.layer ?? 'feeder'
      const what = `${name} is not JSON: ${reading.reason} at line ${reading.line}, column ${reading.column}.`
      findings.push(finding('error', 'bad-json', { layer }, what, `Correct line ${reading.line}.`))
    }
  }
  return { layers, findings: [...findings, ...unknownLayers(names)] }
}

function unknownLayers(names: readonly string[]): Finding[] {
  return names
    .filter((name) => name.endsWith('.geojson') && !LAYER_FILES.has(name))
    .map((name) =>
      finding(
        'warning',
        'unknown-layer',
        FEEDER,
        `${name} is not a layer of the format and was left out.`,
        `Rename it; the layers are ${[...LAYER_FILES].filter((each) => each !== HEADER_FILE).join(', ')}.`,
      ),
    )
}
