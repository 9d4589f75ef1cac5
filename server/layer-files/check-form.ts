import { z } from 'zod'
import type { Finding } from '#domain/feeder/finding.ts'
import { bareSchema, isPlainObject, type Schema } from './bare-schema.ts'
import { codeForm } from './code-form.ts'
import { fileKey } from './file-key.ts'
import { type FindingSubject, finding } from './layer-finding.ts'

export interface Checked {
  /** The record in code form with its defaults; null where the schema refuses it. */
  readonly record: unknown
  readonly findings: readonly Finding[]
}

/**
 * Turns properties of a file into a record: renames, then checks by the schema.
 * `extra` are properties in code form that come from elsewhere, as the geometry does.
 */
export function checkForm(
  schema: z.ZodType,
  properties: unknown,
  extra: Record<string, unknown>,
  subject: FindingSubject,
): Checked {
  const { value, unknownProperties } = codeForm(schema, properties)
  const findings = unknownProperties.map(({ path, suggestion }) =>
    finding(
      'warning',
      'unknown-property',
      subject,
      `The property ${path} is not part of the format and was left out.`,
      suggestion ? `Write it as ${suggestion}.` : 'Remove it, or check its spelling.',
    ),
  )
  const whole = isPlainObject(value) ? { ...value, ...extra } : value
  const result = schema.safeParse(whole)
  if (result.success) return { record: result.data, findings }
  for (const issue of result.error.issues) {
    findings.push(invalidProperty(schema, issue, { whole, extra }, subject))
  }
  return { record: null, findings }
}

function invalidProperty(
  schema: Schema,
  issue: z.core.$ZodIssue,
  { whole, extra }: { whole: unknown; extra: Record<string, unknown> },
  subject: FindingSubject,
): Finding {
  const [first] = issue.path
  const isGeometry = first !== undefined && Object.hasOwn(extra, first)
  const path = isGeometry
    ? filePath(schema, issue.path).replace(/^\w+/, 'coordinates')
    : filePath(schema, issue.path)
  const given = valueAt(whole, issue.path)
  const schemaFile = `geodata/schema/${subject.layer}.schema.json`
  const remedy = `Correct it; the allowed forms stand in ${schemaFile}.`
  if (path === '') return finding('error', 'invalid-property', subject, sentence(issue), remedy)
  if (given === undefined) {
    return finding('error', 'invalid-property', subject, `The property ${path} is missing.`, remedy)
  }
  const got = shortText(given)
  return finding(
    'error',
    'invalid-property',
    subject,
    `The property ${path} is ${got}: ${reason(issue)}.`,
    remedy,
  )
}

/** Begin of the value as it stands in the file. */
function shortText(value: unknown): string {
  try {
    return JSON.stringify(value).slice(0, 60)
  } catch {
    return 'nested far too deep'
  }
}

function reason(issue: z.core.$ZodIssue): string {
  if (issue.code === 'invalid_union' && 'discriminator' in issue) return 'no such kind'
  const text = issue.message.replace(/^Invalid input: /, '')
  return text.charAt(0).toLowerCase() + text.slice(1)
}

function sentence(issue: z.core.$ZodIssue): string {
  if (issue.code === 'invalid_type') return 'It is not a JSON object.'
  return `It ${reason(issue)}.`
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (inner, key) =>
      Array.isArray(inner) || isPlainObject(inner) ? Reflect.get(inner, key) : undefined,
    value,
  )
}

/** A path of the schema in the spelling of the file, as "cases[0].load_factor". */
function filePath(schema: Schema, path: readonly PropertyKey[]): string {
  let text = ''
  let at: Schema | undefined = schema
  for (const key of path) {
    if (typeof key === 'number') text += `[${key}]`
    else {
      const spelt = at && isRecord(at) ? String(key) : fileKey(String(key))
      text += text === '' ? spelt : `.${spelt}`
    }
    at = at && innerSchema(at, key)
  }
  return text
}

function isRecord(schema: Schema): boolean {
  return bareSchema(schema) instanceof z.ZodRecord
}

function innerSchema(schema: Schema, key: PropertyKey): Schema | undefined {
  const bare = bareSchema(schema)
  if (bare instanceof z.ZodObject) return bare.shape[String(key)]
  if (bare instanceof z.ZodArray) return bare.element
  if (bare instanceof z.ZodRecord) return bare.valueType
  return undefined
}
