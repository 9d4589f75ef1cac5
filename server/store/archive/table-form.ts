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
  const columnsOf = byTable(await ask(COLUMNS[kind]))
  const keyOf = byTable(await ask(KEYS[kind]))
  const referencesOf = byTable(await ask(REFERENCES[kind]))
  const names = (rows: readonly Row[] = []) => rows.map(({ name }) => String(name))
  const forms = [...columnsOf].map(([name, rows]): TableForm => {
    const columns = rows.map((row) => ({
      name: String(row.name),
      type: columnType(String(row.type)),
    }))
    columns.sort((left, right) => (left.name < right.name ? -1 : 1))
    const key = names(keyOf.get(name) ?? columns)
    return { name, columns, key, refersTo: names(referencesOf.get(name)) }
  })
  forms.sort((left, right) => (left.name < right.name ? -1 : 1))
  return inOrderOfReferences(forms)
}

function byTable(rows: readonly Row[]): Map<string, Row[]> {
  const tables = new Map<string, Row[]>()
  for (const row of rows) {
    const name = String(row.of_table)
    tables.set(name, [...(tables.get(name) ?? []), row])
  }
  return tables
}

type OfKind = Readonly<Record<DatabaseKind, string>>

const OWN_TABLES: OfKind = {
  sqlite: `(select name as of_table from sqlite_schema
    where type = 'table' and name not like 'sqlite\\_%' escape '\\') as own`,
  postgres: `(select oid, relname as of_table from pg_class
    where relnamespace = current_schema()::regnamespace and relkind in ('r', 'p')) as own`,
}

const COLUMNS: OfKind = {
  sqlite: `select of_table, name, type from ${OWN_TABLES.sqlite}, pragma_table_xinfo(of_table)
    where hidden = 0`,
  postgres: `select of_table, attname as name, format_type(atttypid, null) as type
    from ${OWN_TABLES.postgres} join pg_attribute on attrelid = own.oid
    where attnum > 0 and not attisdropped and attgenerated = ''`,
}

const KEYS: OfKind = {
  sqlite: `select of_table, name from ${OWN_TABLES.sqlite}, pragma_table_info(of_table)
    where pk > 0 order by of_table, pk`,
  postgres: `select of_table, attname as name
    from ${OWN_TABLES.postgres} join pg_index on indrelid = own.oid and indisprimary
    cross join unnest(indkey) with ordinality as part(number, place)
    join pg_attribute on attrelid = own.oid and attnum = part.number
    order by of_table, part.place`,
}

const REFERENCES: OfKind = {
  sqlite: `select distinct of_table, "table" as name
    from ${OWN_TABLES.sqlite}, pragma_foreign_key_list(of_table)`,
  postgres: `select distinct of_table, relname as name
    from ${OWN_TABLES.postgres} join pg_constraint on conrelid = own.oid and contype = 'f'
    join pg_class on pg_class.oid = confrelid`,
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
