import { mkdir, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { checkRecords } from '#domain/feeder/check-records.ts'
import { Feeder } from '#domain/feeder/feeder.ts'
import { type Finding, hasErrors } from '#domain/feeder/finding.ts'
import { FeederHeader } from '#domain/feeder/header.ts'
import { checkFeeder } from '#domain/network/check-feeder.ts'
import { checkConductors } from './check-conductors.ts'
import { checkForm } from './check-form.ts'
import { checkPlaces, type FilePoints } from './check-places.ts'
import { readFolderFiles } from './folder-files.ts'
import { finding } from './layer-finding.ts'
import { FEATURE_LAYERS, HEADER_FILE } from './layer-table.ts'
import { layersOfFeeder, layerText } from './layers-of-feeder.ts'
import { type LayerReading, readLayer } from './read-layer.ts'

/** A feeder with errors is refused whole: then `feeder` is null and the findings say why. */
export interface FeederReading {
  readonly feeder: Feeder | null
  readonly findings: readonly Finding[]
}

/** Reads a feeder folder, or one zip of it, from disk. Never throws for what stands in it. */
export async function readFeederFolder(folder: string): Promise<FeederReading> {
  const { layers, findings } = await readFolderFiles(folder)
  return withFileFindings(layers, findings)
}

/** What the files themselves say comes first; a file that is not JSON is not judged again. */
function withFileFindings(
  layers: Readonly<Record<string, unknown>>,
  findings: readonly Finding[],
): FeederReading {
  if (findings.some(({ code }) => code === 'no-such-folder' || code === 'bad-zip')) {
    return { feeder: null, findings }
  }
  const broken = new Set(
    findings.filter(({ code }) => code === 'bad-json').map(({ layer }) => layer),
  )
  const reading = feederOfLayers(layers)
  const rest = reading.findings.filter(
    ({ code, layer }) =>
      !(broken.has(layer) && (code === 'not-a-feature-collection' || layer === 'feeder')),
  )
  const all = [...findings, ...rest]
  return { feeder: hasErrors(all) ? null : reading.feeder, findings: all }
}

/**
 * Reads parsed layers by file name: "feeder.json", "poles.geojson" and the others. All findings
 * come at once; how the line hangs together is judged only where the records are sound.
 */
export function feederOfLayers(layers: Readonly<Record<string, unknown>>): FeederReading {
  const header = readHeader(layers[HEADER_FILE])
  const readings = FEATURE_LAYERS.map((layer) => ({
    layer,
    reading: readLayer(layer, layers[layer.fileName]),
  }))
  const formFindings = [...header.findings, ...readings.flatMap(({ reading }) => reading.findings)]
  if (!header.record) return { feeder: null, findings: formFindings }
  const feeder = assemble(header.record, readings)
  const declared = Object.fromEntries(
    readings.map(({ layer, reading }) => [layer.layer, reading.ids]),
  )
  const points: FilePoints = Object.fromEntries(
    readings.map(({ layer, reading }) => [layer.layer, reading.points]),
  )
  const isWhole = !readings.some(({ reading }) => reading.findings.some(isFileError))
  const findings = [
    ...formFindings,
    ...checkConductors(feeder.header),
    ...(isWhole ? checkRecords(feeder, declared) : []),
    ...checkPlaces(feeder, points),
  ]
  if (hasErrors(findings)) return { feeder: null, findings }
  const all = [...findings, ...checkFeeder(feeder)]
  return { feeder: hasErrors(all) ? null : feeder, findings: all }
}

/** A layer that is not there or not readable: references into it cannot be judged. */
function isFileError({ code }: Finding): boolean {
  return code === 'missing-file' || code === 'not-a-feature-collection'
}

function readHeader(content: unknown): {
  record: FeederHeader | null
  findings: readonly Finding[]
} {
  const subject = { layer: 'feeder' } as const
  if (content === undefined) {
    const what = `The file ${HEADER_FILE} is missing.`
    const remedy = 'Add it; feeder.json, poles.geojson and spans.geojson are needed.'
    return { record: null, findings: [finding('error', 'missing-file', subject, what, remedy)] }
  }
  const { record, findings } = checkForm(FeederHeader, content, {}, subject)
  return { record: record === null ? null : FeederHeader.parse(record), findings }
}

interface NamedReading {
  readonly layer: (typeof FEATURE_LAYERS)[number]
  readonly reading: LayerReading
}

/** Records were checked one by one; this gives them their types. */
function assemble(header: FeederHeader, readings: readonly NamedReading[]): Feeder {
  const records = readings.map(({ layer, reading }) => [layer.feederKey, reading.records] as const)
  return Feeder.parse({ header, ...Object.fromEntries(records) })
}

/** Writes every layer that holds something; the folder is made, and layers now empty are removed. */
export async function writeFeederFolder(folder: string, feeder: Feeder): Promise<void> {
  await mkdir(folder, { recursive: true })
  const layers = layersOfFeeder(feeder)
  for (const { fileName } of FEATURE_LAYERS) {
    if (!(fileName in layers)) await rm(join(folder, fileName), { force: true })
  }
  for (const [name, content] of Object.entries(layers)) {
    await writeFile(join(folder, name), layerText(content))
  }
}
