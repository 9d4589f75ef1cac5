import { z } from 'zod'
import { Position } from '#domain/feeder/geometry.ts'
import { FeederHeader } from '#domain/feeder/header.ts'
import { bareSchema, isPlainObject, type PlainObject, type Schema } from './bare-schema.ts'
import { fileForm } from './file-form.ts'
import { fileKey } from './file-key.ts'
import { FEATURE_LAYERS, type FeatureLayer, type GeometryType } from './layer-table.ts'

/**
 * JSON Schema (draft 2020-12) of each file of a feeder folder, by schema file name. Generated from
 * the schemas of domain/feeder, in the spelling of the files; rules that join several properties
 * or several features are checked on reading and do not stand in it.
 */
export function layerSchemas(): Record<string, unknown> {
  const header = jsonSchema(FeederHeader, 'feeder.json', 'Header of a feeder folder')
  const layers = FEATURE_LAYERS.map((layer) => [schemaFile(layer.layer), layerSchema(layer)])
  return { [schemaFile('feeder')]: header, ...Object.fromEntries(layers) }
}

export function schemaFile(layer: string): string {
  return `${layer}.schema.json`
}

function layerSchema(layer: FeatureLayer): unknown {
  const title = `Layer ${layer.layer} of a feeder folder (GeoJSON, RFC 7946)`
  return jsonSchema(collectionOf(layer), layer.fileName, title)
}

/** Longitude, latitude and an altitude that is not kept. */
const FilePosition = z.tuple([...Position.def.items], z.number())

const GEOMETRIES: Readonly<Record<GeometryType, z.ZodObject>> = {
  Point: z.object({ type: z.literal('Point'), coordinates: FilePosition }),
  LineString: z.object({
    type: z.literal('LineString'),
    coordinates: z.array(FilePosition).min(2),
  }),
  Polygon: z.object({
    type: z.literal('Polygon'),
    coordinates: z.array(z.array(FilePosition).min(4)).min(1),
  }),
}

function collectionOf(layer: FeatureLayer): z.ZodObject {
  const geometry = GEOMETRIES[layer.geometry]
  const feature = z.object({
    type: z.literal('Feature'),
    geometry: layer.geometryKey === null ? geometry.nullable() : geometry,
    properties: propertiesOf(layer),
  })
  return z.object({ type: z.literal('FeatureCollection'), features: z.array(feature) })
}

/** The record without what the geometry gives. */
function propertiesOf({ schema, geometryKey }: FeatureLayer): z.ZodType {
  if (geometryKey === null || !(schema instanceof z.ZodObject)) return schema
  const shape = Object.entries(schema.shape).filter(([key]) => key !== geometryKey)
  return z.object(Object.fromEntries(shape))
}

function jsonSchema(schema: z.ZodType, file: string, title: string): unknown {
  const generated = z.toJSONSchema(schema, {
    io: 'input',
    override: ({ zodSchema, jsonSchema: node }) => spellAsInFiles(zodSchema, node),
  })
  const { $schema, ...rest } = generated
  return { $schema, title, description: `Form of ${file}.`, ...rest }
}

/** Renames the properties of one node in place; the schema leads, so that record keys stay. */
function spellAsInFiles(schema: Schema, node: PlainObject): void {
  if (schema instanceof z.ZodDefault && 'default' in node) {
    node.default = fileForm(schema, node.default, { withoutDefaults: false })
  }
  if (!(bareSchema(schema) instanceof z.ZodObject) || !isPlainObject(node.properties)) return
  node.properties = Object.fromEntries(
    Object.entries(node.properties).map(([key, inner]) => [fileKey(key), inner]),
  )
  if (Array.isArray(node.required)) node.required = node.required.map((key) => fileKey(String(key)))
}
