import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import { FeederHeader } from '#domain/feeder/header.ts'
import { distanceM, pathLengthM } from '#domain/network/path-length.ts'
import { isPlainObject } from './bare-schema.ts'
import { fileForm } from './file-form.ts'
import { FEATURE_LAYERS, type FeatureLayer, HEADER_FILE } from './layer-table.ts'

interface FeatureCollection {
  readonly type: 'FeatureCollection'
  readonly features: readonly unknown[]
}

/** The layers of a feeder as the files hold them, by file name; layers without features are left out. */
export function layersOfFeeder(feeder: Feeder): Record<string, unknown> {
  const placeOf = placeFinder(feeder)
  const layers: Record<string, unknown> = {
    [HEADER_FILE]: fileForm(FeederHeader, feeder.header, { withoutDefaults: false }),
  }
  for (const layer of FEATURE_LAYERS) {
    const records = feeder[layer.feederKey]
    if (records.length === 0 && !layer.isRequired) continue
    layers[layer.fileName] = {
      type: 'FeatureCollection',
      features: records.map((record) => featureOf(layer, record, placeOf)),
    }
  }
  return layers
}

type PlaceFinder = (record: { pole?: string; span?: string }) => Position | null

function featureOf(layer: FeatureLayer, record: object, placeOf: PlaceFinder): unknown {
  const { [layer.geometryKey ?? '']: given, ...properties }: Record<string, unknown> = { ...record }
  const coordinates = layer.geometryKey === null ? placeOf(record) : given
  const schema = layer.schema
  return {
    type: 'Feature',
    geometry: coordinates ? { type: layer.geometry, coordinates } : null,
    properties: fileForm(schema, properties, { withoutDefaults: true }),
  }
}

/** A pole's position, or the middle of a span. */
function placeFinder(feeder: Feeder): PlaceFinder {
  const poles = new Map(feeder.poles.map(({ id, at }) => [id, at]))
  const paths = new Map(feeder.spans.map(({ id, path }) => [id, path]))
  return ({ pole, span }) => {
    if (pole !== undefined) return poles.get(pole) ?? null
    const path = span === undefined ? undefined : paths.get(span)
    return path ? middleOf(path) : null
  }
}

/** Position half way along a line; straight between its points, to 7 decimals (about 1 cm). */
function middleOf(path: readonly Position[]): Position | null {
  let left = pathLengthM(path) / 2
  for (let i = 1; i < path.length; i++) {
    const from = path[i - 1]
    const to = path[i]
    if (!from || !to) continue
    const lengthM = distanceM(from, to)
    if (left <= lengthM) {
      const share = lengthM === 0 ? 0 : left / lengthM
      const at = (axis: 0 | 1) => Number((from[axis] + share * (to[axis] - from[axis])).toFixed(7))
      return [at(0), at(1)]
    }
    left -= lengthM
  }
  return path[0] ?? null
}

/** Text of a layer: one feature to a line, so that two versions compare line by line. */
export function layerText(content: unknown): string {
  if (!isCollection(content)) return `${withPairsOnOneLine(JSON.stringify(content, null, 2))}\n`
  const lines = content.features.map((feature) => JSON.stringify(feature))
  return `{"type":"FeatureCollection","features":[\n${lines.join(',\n')}\n]}\n`
}

/** Puts [resistance, reactance] on one line of indented JSON. */
function withPairsOnOneLine(text: string): string {
  const number = '-?\\d[\\d.eE+-]*'
  return text.replace(new RegExp(`\\[\\s+(${number}),\\s+(${number})\\s+\\]`, 'g'), '[$1, $2]')
}

function isCollection(content: unknown): content is FeatureCollection {
  return isPlainObject(content) && Array.isArray(content.features)
}
