import type { Finding } from '#domain/feeder/finding.ts'
import { Position } from '#domain/feeder/geometry.ts'
import { isPlainObject, type PlainObject } from './bare-schema.ts'
import { checkForm } from './check-form.ts'
import { finding } from './layer-finding.ts'
import type { FeatureLayer } from './layer-table.ts'

export interface LayerReading {
  readonly records: readonly unknown[]
  /** Ids of all features, also of those that could not be used. */
  readonly ids: ReadonlySet<string>
  /** Point by id, for layers whose place follows from elsewhere. */
  readonly points: ReadonlyMap<string, Position>
  readonly findings: readonly Finding[]
}

const EMPTY: LayerReading = { records: [], ids: new Set(), points: new Map(), findings: [] }

/** Reads one layer; `content` is parsed JSON, or undefined where the file is not there. */
export function readLayer(layer: FeatureLayer, content: unknown): LayerReading {
  if (content === undefined) return missing(layer)
  const isCollection =
    isPlainObject(content) &&
    content.type === 'FeatureCollection' &&
    Array.isArray(content.features)
  if (!isCollection) {
    return refused(
      'not-a-feature-collection',
      layer,
      `${layer.fileName} is not a GeoJSON FeatureCollection.`,
      'Write it as {"type": "FeatureCollection", "features": […]} (RFC 7946, section 3.3).',
    )
  }
  const features: unknown[] = Array.isArray(content.features) ? content.features : []
  const readings = features.map((feature, index) => readFeature(layer, feature, index))
  const points = new Map<string, Position>()
  for (const { id, point } of readings) if (id !== null && point) points.set(id, point)
  const raised = readings.filter(({ hasAltitude }) => hasAltitude).length
  return {
    records: readings.flatMap(({ record }) => (record === null ? [] : [record])),
    ids: new Set(readings.flatMap(({ id }) => (id === null ? [] : [id]))),
    points,
    findings: [
      ...(raised > 0 ? [altitudeNotice(layer, raised)] : []),
      ...readings.flatMap(({ findings }) => findings),
    ],
  }
}

function missing(layer: FeatureLayer): LayerReading {
  if (!layer.isRequired) return EMPTY
  return refused(
    'missing-file',
    layer,
    `The file ${layer.fileName} is missing.`,
    'Add it; feeder.json, poles.geojson and spans.geojson are needed.',
  )
}

function refused(code: string, layer: FeatureLayer, what: string, remedy: string): LayerReading {
  return { ...EMPTY, findings: [finding('error', code, layer, what, remedy)] }
}

function altitudeNotice(layer: FeatureLayer, count: number): Finding {
  return finding(
    'notice',
    'altitude-left-out',
    layer,
    `${count} features carry altitudes, which the format does not keep.`,
    'Nothing to do; only longitude and latitude are used.',
  )
}

interface FeatureReading {
  readonly id: string | null
  readonly record: unknown
  readonly point: Position | null
  readonly hasAltitude: boolean
  readonly findings: readonly Finding[]
}

function readFeature(layer: FeatureLayer, feature: unknown, index: number): FeatureReading {
  const properties = isPlainObject(feature) && isPlainObject(feature.properties)
  const read = isPlainObject(feature) ? feature : {}
  const id = properties ? idOf(read.properties) : null
  const { coordinates, hasAltitude, problem } = geometryOf(layer, read)
  const place = firstPosition(coordinates)
  const subject = { layer: layer.layer, featureId: id ?? `#${index + 1}`, place }
  if (read.type !== 'Feature' || !properties) {
    const what = 'It is not a GeoJSON Feature with properties.'
    const remedy = `Correct feature ${index + 1} of ${layer.fileName} (RFC 7946, section 3.2).`
    const findings = [finding('error', 'not-a-feature', subject, what, remedy)]
    return { id, record: null, point: null, hasAltitude, findings }
  }
  const wrong = problem
    ? [finding('error', 'wrong-geometry', subject, problem.what, problem.remedy)]
    : []
  const extra = layer.geometryKey === null || problem ? {} : { [layer.geometryKey]: coordinates }
  const checked = checkForm(layer.schema, read.properties, extra, subject)
  const findings = problem ? withoutGeometry(checked.findings, layer) : checked.findings
  return {
    id,
    record: problem ? null : checked.record,
    point: layer.geometryKey === null ? place : null,
    hasAltitude,
    findings: [...wrong, ...findings],
  }
}

/** A refused geometry was named once already; the schema need not miss it again. */
function withoutGeometry(findings: readonly Finding[], { geometryKey }: FeatureLayer): Finding[] {
  return findings.filter(({ what }) => what !== `The property ${geometryKey} is missing.`)
}

function idOf(properties: unknown): string | null {
  return isPlainObject(properties) && typeof properties.id === 'string' ? properties.id : null
}

interface GeometryReading {
  readonly coordinates: unknown
  readonly hasAltitude: boolean
  readonly problem: { readonly what: string; readonly remedy: string } | null
}

function geometryOf(layer: FeatureLayer, { geometry }: PlainObject): GeometryReading {
  const mayBeMissing = layer.geometryKey === null
  if (mayBeMissing && (geometry === null || geometry === undefined)) {
    return { coordinates: undefined, hasAltitude: false, problem: null }
  }
  const type = isPlainObject(geometry) ? String(geometry.type) : 'nothing'
  if (!isPlainObject(geometry) || type !== layer.geometry) {
    const problem = {
      what: `Its geometry is ${type}; the layer ${layer.layer} holds ${layer.geometry} features.`,
      remedy: type.startsWith('Multi')
        ? `Split it into one ${layer.geometry} feature for each part.`
        : `Give it a ${layer.geometry} geometry.`,
    }
    return { coordinates: undefined, hasAltitude: false, problem }
  }
  const flat = withoutAltitude(geometry.coordinates)
  if (!mayBeMissing || firstPosition(flat.coordinates)) return { ...flat, problem: null }
  const problem = {
    what: 'Its coordinates are not a longitude and a latitude in degrees.',
    remedy: 'Correct them (WGS 84, longitude first), or set geometry to null.',
  }
  return { ...flat, problem }
}

/** Lists inside the coordinates of a Polygon, which nests deepest of the layers: rings, positions. */
const DEEPEST_NESTING = 2

/** Drops a third number of positions, as RFC 7946, section 3.1.1, allows it to stand. */
function withoutAltitude(
  coordinates: unknown,
  nesting = DEEPEST_NESTING,
): { coordinates: unknown; hasAltitude: boolean } {
  if (!Array.isArray(coordinates)) return { coordinates, hasAltitude: false }
  if (typeof coordinates[0] === 'number') {
    const hasAltitude = coordinates.length > 2
    return { coordinates: hasAltitude ? coordinates.slice(0, 2) : coordinates, hasAltitude }
  }
  if (nesting === 0) return { coordinates, hasAltitude: false }
  const parts = coordinates.map((part) => withoutAltitude(part, nesting - 1))
  return {
    coordinates: parts.map((part) => part.coordinates),
    hasAltitude: parts.some((part) => part.hasAltitude),
  }
}

function firstPosition(coordinates: unknown): Position | null {
  let inner = coordinates
  while (Array.isArray(inner) && Array.isArray(inner[0])) inner = inner[0]
  const result = Position.safeParse(inner)
  return result.success ? result.data : null
}
