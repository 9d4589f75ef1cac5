import type { DatabaseKind } from '../database.ts'

/** What a column holds, whatever the database calls it. */
export type ColumnType = 'text' | 'integer' | 'number' | 'boolean' | 'bytes' | 'moment'

export interface Column {
  readonly name: string
  readonly type: ColumnType
}

/** A table as it is found in a database, of whatever version of the program. */
export interface TableForm {
  readonly name: string
  /** By name, so that both kinds of database give them in one order. */
  readonly columns: readonly Column[]
  /** Columns by which the rows are told apart; all of them where the table has no key. */
  readonly key: readonly string[]
  /** Tables that must be filled before this one; may name the table itself. */
  readonly refersTo: readonly string[]
}

export type Row = Readonly<Record<string, unknown>>

/** Asks a database one statement and gives all rows. */
export type Ask = (statement: string) => Promise<readonly Row[]>

/** Tables of the program itself, each after those that it refers to. */
export async function readTableForms(ask: Ask, kind: DatabaseKind): Promise<TableForm[]> {
  const names = (await ask(TABLE_NAMES[kind])).map(({ name }) => String(name))
  const forms: TableForm[] = []
  for (const name of names.sort()) forms.push(await readForm(ask, kind, name))
  return inOrderOfReferences(forms)
}

const TABLE_NAMES: Readonly<Record<DatabaseKind, string>> = {
  sqlite: `select name from sqlite_schema where type = 'table' and name not like 'sqlite\\_%' escape '\\'`,
  postgres: `select relname as name from pg_class
    where relnamespace = current_schema()::regnamespace and relkind in ('r', 'p')`,
}

async function readForm(ask: Ask, kind: DatabaseKind, name: string): Promise<TableForm> {
  const quoted = textLiteral(name)
  const columns = (await ask(COLUMNS[kind](quoted))).map((row) => ({
    name: String(row.name),
    type: columnType(String(row.type)),
  }))
  const key = (await ask(KEY[kind](quoted))).map((row) => String(row.name))
  const refersTo = (await ask(REFERENCES[kind](quoted))).map((row) => String(row.name))
  columns.sort((left, right) => (left.name < right.name ? -1 : 1))
  return { name, columns, key: key.length > 0 ? key : columns.map((each) => each.name), refersTo }
}

type OfTable = Readonly<Record<DatabaseKind, (quotedName: string) => string>>

const COLUMNS: OfTable = {
  sqlite: (name) => `select name, type from pragma_table_xinfo(${name}) where hidden = 0`,
  postgres: (name) => `select attname as name, format_type(atttypid, null) as type
    from pg_attribute where attrelid = quote_ident(${name})::regclass
    and attnum > 0 and not attisdropped and attgenerated = ''`,
}

const KEY: OfTable = {
  sqlite: (name) => `select name from pragma_table_info(${name}) where pk > 0 order by pk`,
  postgres: (name) => `select attname as name
    from pg_index, unnest(indkey) with ordinality as part(number, place)
    join pg_attribute on attnum = part.number
    where indrelid = quote_ident(${name})::regclass and attrelid = indrelid and indisprimary
    order by part.place`,
}

const REFERENCES: OfTable = {
  sqlite: (name) => `select distinct "table" as name from pragma_foreign_key_list(${name})`,
  postgres: (name) => `select distinct relname as name
    from pg_constraint join pg_class on pg_class.oid = confrelid
    where conrelid = quote_ident(${name})::regclass and contype = 'f'`,
}

/** The words of PostgreSQL, and what SQLite was told on making the table. */
const TYPE_WORDS: readonly (readonly [RegExp, ColumnType])[] = [
  [/^bool/i, 'boolean'],
  [/^(bytea|blob)/i, 'bytes'],
  [/^timestamp|^date(time)?$/i, 'moment'],
  [/int/i, 'integer'],
  [/^(real|double|float)/i, 'number'],
]

function columnType(word: string): ColumnType {
  return TYPE_WORDS.find(([pattern]) => pattern.test(word))?.[1] ?? 'text'
}

/** @throws Error where tables refer to each other in a ring */
function inOrderOfReferences(forms: readonly TableForm[]): TableForm[] {
  const ordered: TableForm[] = []
  const placed = new Set<string>()
  while (ordered.length < forms.length) {
    const ready = forms.filter(
      (form) =>
        !placed.has(form.name) &&
        form.refersTo.every((name) => name === form.name || placed.has(name)),
    )
    if (ready.length === 0) throw new Error(ringWords(forms, placed))
    for (const form of ready) placed.add(form.name)
    ordered.push(...ready)
  }
  return ordered
}

function ringWords(forms: readonly TableForm[], placed: ReadonlySet<string>): string {
  const left = forms.map(({ name }) => name).filter((name) => !placed.has(name))
  return `Expected tables that can be filled one after the other, got a ring among ${left.join(', ')}.`
}

export function textLiteral(text: string): string {
  return `'${text.replaceAll("'", "''")}'`
}

export function quoted(name: string): string {
  return `"${name.replaceAll('"', '""')}"`
}

/** All rows in an order that is the same on both kinds of database: by the bytes of the key. */
export function selectInOrder(form: TableForm, kind: DatabaseKind): string {
  const asText = (column: Column) =>
    kind === 'postgres' && column.type === 'text'
      ? `${quoted(column.name)}::text as ${quoted(column.name)}`
      : quoted(column.name)
  const columns = form.columns.map(asText).join(', ')
  return `select ${columns} from ${quoted(form.name)} order by ${keyOrder(form, kind)}`
}

/** What stands behind `order by`. */
export function keyOrder({ name, columns, key }: TableForm, kind: DatabaseKind): string {
  const isText = (column: string) =>
    columns.some((each) => each.name === column && each.type === 'text')
  return key
    .map((column) => {
      const byBytes = kind === 'postgres' && isText(column) ? '::text collate "C"' : ''
      return `${quoted(name)}.${quoted(column)}${byBytes} nulls first`
    })
    .join(', ')
}
