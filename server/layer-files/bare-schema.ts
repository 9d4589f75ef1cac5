import { z } from 'zod'

export type Schema = z.core.$ZodType

/** The schema inside optional, nullable and default wrappers. */
export function bareSchema(schema: Schema): Schema {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodNullable) {
    return bareSchema(schema.unwrap())
  }
  if (schema instanceof z.ZodDefault) return bareSchema(schema.def.innerType)
  return schema
}

export type PlainObject = Record<string, unknown>

export function isPlainObject(value: unknown): value is PlainObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

/** Options of a union that could hold `value`: by its discriminator where there is one. */
export function unionOptions(union: z.ZodUnion, value: PlainObject): readonly Schema[] {
  if (!(union instanceof z.ZodDiscriminatedUnion)) return union.options
  const key = union.def.discriminator
  return union.options.filter((option) => {
    const tag = bareSchema(option) instanceof z.ZodObject ? shapeOf(option)[key] : undefined
    return tag !== undefined && z.safeParse(tag, value[key]).success
  })
}

export function shapeOf(schema: Schema): Record<string, Schema> {
  const bare = bareSchema(schema)
  return bare instanceof z.ZodObject ? bare.shape : {}
}
