import { csvLine } from '#contract/csv-line.ts'
import type { Position } from '#domain/feeder/geometry.ts'

/** One thing with its place; members that are undefined are left out of GeoJSON and empty in CSV. */
export interface PlacedRow {
  readonly id: string
  /** Longitude and latitude, degrees (WGS 84). */
  readonly at: Position
  readonly properties: Readonly<Record<string, unknown>>
}

export interface PlacedFile {
  readonly as: 'csv' | 'geojson'
  /** Of the properties, in their order. */
  readonly columns: readonly string[]
  /** What is true of the whole, as a foreign member of the collection (RFC 7946, section 6.1). */
  readonly about: Readonly<Record<string, unknown>>
}

/** Rows as CSV (RFC 4180) with id, longitude and latitude first, or as GeoJSON (RFC 7946), in pieces. */
export async function* placedRows(
  rows: AsyncIterable<PlacedRow>,
  { as, columns, about }: PlacedFile,
): AsyncGenerator<string> {
  if (as === 'csv') {
    yield csvLine(['id', 'longitude', 'latitude', ...columns])
    for await (const row of rows) yield csvOf(row, columns)
    return
  }
  yield `{"type":"FeatureCollection","about":${JSON.stringify(about)},"features":[`
  let separator = '\n'
  for await (const row of rows) {
    yield separator + JSON.stringify(featureOf(row))
    separator = ',\n'
  }
  yield '\n]}\n'
}

function csvOf(
  { id, at: [longitude, latitude], properties }: PlacedRow,
  columns: readonly string[],
) {
  const cells = columns.map((column) => cellOf(properties[column]))
  return csvLine([id, longitude, latitude, ...cells])
}

/** A list stands in one cell. */
function cellOf(value: unknown): unknown {
  return Array.isArray(value) ? value.join('; ') : value
}

function featureOf({ id, at, properties }: PlacedRow) {
  return { type: 'Feature', id, geometry: { type: 'Point', coordinates: at }, properties }
}
