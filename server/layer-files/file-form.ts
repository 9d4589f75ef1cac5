import { isDeepStrictEqual } from 'node:util'
import { z } from 'zod'
import { bareSchema, isPlainObject, type Schema, unionOptions } from './bare-schema.ts'
import { fileKey } from './file-key.ts'

export interface FileFormOptions {
  /** Leaves out properties that hold the schema's default; reading gives them back. */
  readonly withoutDefaults: boolean
}

/** Renames a checked value to the spelling of the files; the schema leads, as in `codeForm`. */
export function fileForm(schema: Schema, value: unknown, options: FileFormOptions): unknown {
  const bare = bareSchema(schema)
  if (Array.isArray(value)) {
    if (!(bare instanceof z.ZodArray)) return value
    return value.map((entry) => fileForm(bare.element, entry, options))
  }
  if (!isPlainObject(value)) return value
  if (bare instanceof z.ZodObject) {
    return Object.fromEntries(
      Object.entries(bare.shape).flatMap(([key, inner]) => {
        const entry = value[key]
        if (entry === undefined || (options.withoutDefaults && isDefault(inner, entry))) return []
        return [[fileKey(key), fileForm(inner, entry, options)]]
      }),
    )
  }
  if (bare instanceof z.ZodUnion) {
    const option = unionOptions(bare, value).find((each) => z.safeParse(each, value).success)
    return option ? fileForm(option, value, options) : value
  }
  if (bare instanceof z.ZodRecord) {
    return Object.fromEntries(
      Object.entries(value).map(([key, entry]) => [key, fileForm(bare.valueType, entry, options)]),
    )
  }
  return value
}

function isDefault(schema: Schema, value: unknown): boolean {
  return schema instanceof z.ZodDefault && isDeepStrictEqual(schema.def.defaultValue, value)
}
