import type { z } from 'zod'
import { Habitat, Incident, Nest, Protection } from '#domain/feeder/birds.ts'
import { Equipment } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { LayerName } from '#domain/feeder/finding.ts'
import { Access, KeepOut } from '#domain/feeder/land.ts'
import { Load } from '#domain/feeder/load.ts'
import { Pole } from '#domain/feeder/pole.ts'
import { Span } from '#domain/feeder/span.ts'

export type FeatureLayerName = Exclude<LayerName, 'feeder'>
export type GeometryType = 'Point' | 'LineString' | 'Polygon'

export interface FeatureLayer {
  readonly layer: FeatureLayerName
  readonly fileName: string
  /** Where the records stand in a `Feeder`. */
  readonly feederKey: Exclude<keyof Feeder, 'header'>
  readonly schema: z.ZodType
  readonly geometry: GeometryType
  /**
   * Property of the record that the geometry gives. Null where the record follows from its pole or
   * span: then the geometry in the file is only checked against that.
   */
  readonly geometryKey: 'at' | 'path' | 'area' | null
  readonly isRequired: boolean
}

export const HEADER_FILE = 'feeder.json'

const row = (
  layer: FeatureLayerName,
  feederKey: FeatureLayer['feederKey'],
  schema: z.ZodType,
  geometry: GeometryType,
  geometryKey: FeatureLayer['geometryKey'],
  isRequired = false,
): FeatureLayer => ({
  layer,
  fileName: `${layer}.geojson`,
  feederKey,
  schema,
  geometry,
  geometryKey,
  isRequired,
})

/** The layers of a feeder folder, in the order in which they are read and written. */
export const FEATURE_LAYERS: readonly FeatureLayer[] = [
  row('poles', 'poles', Pole, 'Point', 'at', true),
  row('spans', 'spans', Span, 'LineString', 'path', true),
  row('equipment', 'equipment', Equipment, 'Point', null),
  row('loads', 'loads', Load, 'Point', null),
  row('nests', 'nests', Nest, 'Point', 'at'),
  row('habitat', 'habitat', Habitat, 'Polygon', 'area'),
  row('incidents', 'incidents', Incident, 'Point', 'at'),
  row('covers', 'protections', Protection, 'Point', null),
  row('access', 'access', Access, 'LineString', 'path'),
  row('keepout', 'keepOuts', KeepOut, 'Polygon', 'area'),
]

export const LAYER_FILES: ReadonlySet<string> = new Set([
  HEADER_FILE,
  ...FEATURE_LAYERS.map(({ fileName }) => fileName),
])

/** File in which a layer stands. */
export function fileOfLayer(layer: LayerName): string {
  return layer === 'feeder' ? HEADER_FILE : `${layer}.geojson`
}
