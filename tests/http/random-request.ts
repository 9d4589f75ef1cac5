import fc, { type Arbitrary } from 'fast-check'

/** A JSON Schema as the OpenAPI document gives it, as far as the requests of this server use it. */
export interface Schema {
  readonly type?: string | readonly string[]
  readonly properties?: Readonly<Record<string, Schema>>
  readonly required?: readonly string[]
  readonly items?: Schema
  readonly enum?: readonly unknown[]
  readonly const?: unknown
  readonly anyOf?: readonly Schema[]
  readonly oneOf?: readonly Schema[]
  readonly allOf?: readonly Schema[]
  readonly additionalProperties?: Schema | boolean
  readonly minimum?: number
  readonly maximum?: number
  readonly $ref?: string
}

export interface Parameter {
  readonly name: string
  readonly in: string
  readonly schema: Schema
}

export interface Operation {
  readonly operationId: string
  readonly parameters?: readonly Parameter[]
  readonly requestBody?: { readonly content: Readonly<Record<string, { schema: Schema }>> }
}

export interface RandomRequest {
  readonly path: string
  readonly contentType: string
  /** Left out where the operation takes none. */
  readonly body?: string
}

const NASTY_TEXTS = [
  '',
  ' ',
  'a\0b',
  '\ud83e',
  '\u202egpj.exe',
  '__proto__',
  'constructor',
  'toString',
  '../../etc/passwd',
  '%00',
  "' or 1=1 --",
  '"; drop table feeder; --',
  '<script>alert(1)</script>',
  '=cmd|calc!A1',
  'x'.repeat(5000),
  '9'.repeat(400),
  '2026-02-30',
  '🦅',
]
const NASTY_NUMBERS = [0, -0, -1, 1.5, 1e308, -1e308, 5e-324, 2 ** 53, 2 ** 63, 999_999_999]

const anyText = fc.oneof(
  fc.constantFrom(...NASTY_TEXTS),
  fc.string({ unit: 'binary', maxLength: 40 }),
)
const anyNumber = fc.oneof(
  fc.constantFrom(...NASTY_NUMBERS),
  fc.integer(),
  fc.double({ noNaN: true }),
)

/** Anything that JSON can say, shallow. */
const anything: Arbitrary<unknown> = fc.oneof(
  fc.constantFrom(null, true, false, [], {}),
  anyText,
  anyNumber,
  fc.jsonValue({ maxDepth: 3 }),
)

/** Values that fit the schema in part: mostly its shape, here and there something else. */
export function roughlyFitting(
  schema: Schema,
  known: readonly string[],
  depth = 0,
): Arbitrary<unknown> {
  const fitting = depth > 6 ? anything : fittingOf(schema, known, depth)
  return fc.oneof({ weight: 9, arbitrary: fitting }, { weight: 1, arbitrary: anything })
}

function fittingOf(schema: Schema, known: readonly string[], depth: number): Arbitrary<unknown> {
  const inner = (part: Schema) => roughlyFitting(part, known, depth + 1)
  if (schema.const !== undefined) return fc.constant(schema.const)
  if (schema.enum) return fc.constantFrom(...schema.enum)
  const choices = schema.anyOf ?? schema.oneOf
  if (choices) return fc.oneof(...choices.map(inner))
  if (schema.allOf)
    return fc.tuple(...schema.allOf.map(inner)).map((parts) => Object.assign({}, ...parts))
  const [type] = [schema.type ?? []].flat()
  if (type === 'object') return objectOf(schema, inner)
  if (type === 'array') return fc.array(inner(schema.items ?? {}), { maxLength: 4 })
  if (type === 'string') return fc.oneof(fc.constantFrom(...known), anyText, anyDate)
  if (type === 'integer') return fc.oneof(boundedInteger(schema), anyNumber)
  if (type === 'number') return fc.oneof(boundedInteger(schema), anyNumber)
  return type === 'boolean' ? fc.boolean() : anything
}

const anyDate = fc
  .date({ noInvalidDate: true, min: new Date('1900-01-01'), max: new Date('2100-01-01') })
  .chain((date) => fc.constantFrom(date.toISOString(), date.toISOString().slice(0, 10)))

function boundedInteger({ minimum = -3, maximum = 100 }: Schema): Arbitrary<number> {
  const low = Math.ceil(Math.max(minimum, -1e6))
  return fc.integer({ min: low, max: Math.max(low, Math.floor(Math.min(maximum, 1e6))) })
}

function objectOf(schema: Schema, inner: (part: Schema) => Arbitrary<unknown>): Arbitrary<unknown> {
  const { properties = {}, required = [], additionalProperties } = schema
  const members = Object.fromEntries(
    Object.entries(properties).map(([name, part]) => [name, inner(part)]),
  )
  const named = fc.record(members, { requiredKeys: required.filter((name) => name in members) })
  const others =
    typeof additionalProperties === 'object'
      ? fc.dictionary(anyText, inner(additionalProperties), { maxKeys: 4 })
      : fc.oneof(
          { weight: 19, arbitrary: fc.constant({}) },
          { weight: 1, arbitrary: fc.dictionary(anyText, anything, { maxKeys: 2 }) },
        )
  return fc.tuple(named, others).map(([one, other]) => ({ ...other, ...one }))
}

/** Text of a body: mostly as JSON writes it, sometimes damaged. */
function bodyText(value: unknown): Arbitrary<string> {
  const text = JSON.stringify(value) ?? 'null'
  const cut = fc.nat({ max: text.length }).map((at) => text.slice(0, at))
  const twice = fc.constant(text.replace(/^\{/, '{"name":1,"name":[],'))
  const nested = fc
    .integer({ min: 20, max: 20_000 })
    .map((n) => '['.repeat(n) + text + ']'.repeat(n))
  const swapped = fc
    .tuple(
      fc.nat({ max: text.length }),
      fc.constantFrom('"', '}', ',', '\0', '1e999', '\ud800', '\\u0000'),
    )
    .map(([at, mark]) => text.slice(0, at) + mark + text.slice(at + 1))
  return fc.oneof(
    { weight: 8, arbitrary: fc.constant(text) },
    { weight: 1, arbitrary: cut },
    { weight: 1, arbitrary: twice },
    { weight: 1, arbitrary: nested },
    { weight: 2, arbitrary: swapped },
  )
}

function pathWith(path: string, values: readonly (readonly [Parameter, unknown])[]): string {
  let filled = path
  const query = new URLSearchParams()
  for (const [{ name, in: where }, value] of values) {
    const text = typeof value === 'string' ? value : JSON.stringify(value)
    if (where === 'path') filled = filled.replace(`{${name}}`, encode(text) || '-')
    else if (where === 'query') query.append(name, wellFormed(text))
  }
  return query.size === 0 ? filled : `${filled}?${query}`
}

/** Dots alone would be taken out of the path before it is sent. */
function encode(text: string): string {
  return encodeURIComponent(wellFormed(text)).replaceAll('.', '%2E')
}

/**
 * Requests for one operation, made from its description: values that fit, nearly fit or do not,
 * whole or damaged bodies, the right or a wrong media type.
 *
 * @param known ids that the record knows, so that some requests find something
 */
export function randomRequest(
  path: string,
  operation: Operation,
  known: readonly string[],
): Arbitrary<RandomRequest> {
  const parameters = (operation.parameters ?? []).filter(({ in: where }) => where !== 'header')
  const values = parameters.map((parameter) =>
    roughlyFitting(parameter.schema, known).map((value) => [parameter, value] as const),
  )
  const [mediaType, content] = Object.entries(operation.requestBody?.content ?? {})[0] ?? []
  const address = fc.tuple(fc.tuple(...values), fc.subarray(parameters)).map(([all, kept]) =>
    pathWith(
      path,
      all.filter(([each]) => each.in === 'path' || kept.includes(each)),
    ),
  )
  if (mediaType === undefined) return address.map((to) => ({ path: to, contentType: '' }))
  const contentType = fc.oneof(
    { weight: 12, arbitrary: fc.constant(mediaType) },
    {
      weight: 1,
      arbitrary: fc.constantFrom(
        '',
        'text/plain',
        'application/x-www-form-urlencoded',
        'application/json; charset=utf-16',
        'nonsense',
      ),
    },
  )
  const isJson = mediaType === 'application/json'
  const body = isJson ? roughlyFitting(content?.schema ?? {}, known).chain(bodyText) : anyText
  return fc
    .tuple(address, contentType, body)
    .map(([to, type, text]) => ({ path: to, contentType: type, body: text }))
}

function wellFormed(text: string): string {
  return text.replaceAll(/\p{Surrogate}/gu, '')
}
