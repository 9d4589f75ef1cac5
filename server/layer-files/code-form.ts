import { z } from 'zod'
import {
  bareSchema,
  isPlainObject,
  type PlainObject,
  type Schema,
  unionOptions,
} from './bare-schema.ts'
import { fileKey } from './file-key.ts'

/** A property of the file that the schema does not know. */
export interface UnknownProperty {
  /** Where it stands, in the file's spelling. */
  readonly path: string
  /** The spelling that was probably meant, if one is near. */
  readonly suggestion: string | null
}

export interface CodeForm {
  /** As the schema's keys are spelt; not yet checked by the schema. */
  readonly value: unknown
  readonly unknownProperties: readonly UnknownProperty[]
}

/**
 * Renames a value read from a file to the keys that the schema has. The schema leads: keys of
 * records (customer classes, case ids) are data and stay untouched.
 */
export function codeForm(schema: Schema, fileValue: unknown): CodeForm {
  const unknownProperties: UnknownProperty[] = []
  return { value: rename(schema, fileValue, '', unknownProperties), unknownProperties }
}

function rename(schema: Schema, value: unknown, path: string, unknown: UnknownProperty[]): unknown {
  const bare = bareSchema(schema)
  if (Array.isArray(value)) {
    if (!(bare instanceof z.ZodArray)) return value
    return value.map((entry, index) => rename(bare.element, entry, `${path}[${index}]`, unknown))
  }
  if (!isPlainObject(value)) return value
  if (bare instanceof z.ZodObject) return renameObject(bare, value, path, unknown)
  if (bare instanceof z.ZodUnion) return renameUnion(bare, value, path, unknown)
  if (bare instanceof z.ZodRecord) {
    return Object.fromEntries(
      Object.entries(value).map(([key, entry]) => [
        key,
        rename(bare.valueType, entry, join(path, key), unknown),
      ]),
    )
  }
  return value
}

function renameObject(
  schema: z.ZodObject,
  value: PlainObject,
  path: string,
  unknown: UnknownProperty[],
): PlainObject {
  const codeKeys = new Map(Object.keys(schema.shape).map((key) => [fileKey(key), key]))
  const renamed: PlainObject = {}
  for (const [key, entry] of Object.entries(value)) {
    const codeKey = codeKeys.get(key)
    const inner = codeKey === undefined ? undefined : schema.shape[codeKey]
    if (codeKey === undefined || inner === undefined) {
      unknown.push({ path: join(path, key), suggestion: nearest(key, [...codeKeys.keys()]) })
    } else {
      renamed[codeKey] = rename(inner, entry, join(path, key), unknown)
    }
  }
  return renamed
}

/** The option that accepts the value; if none does, the value as it is, for the schema to refuse. */
function renameUnion(
  union: z.ZodUnion,
  value: PlainObject,
  path: string,
  unknown: UnknownProperty[],
): unknown {
  const options = unionOptions(union, value)
  for (const option of options) {
    const notes: UnknownProperty[] = []
    const renamed = rename(option, value, path, notes)
    if (options.length > 1 && !z.safeParse(option, renamed).success) continue
    unknown.push(...notes)
    return renamed
  }
  return value
}

function join(path: string, key: string): string {
  return path === '' ? key : `${path}.${key}`
}

function nearest(key: string, known: readonly string[]): string | null {
  const plain = (name: string) => name.toLowerCase().replace(/[^a-z0-9]/g, '')
  return known.find((name) => plain(name) === plain(key)) ?? null
}
