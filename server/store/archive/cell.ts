import type { DatabaseKind } from '../database.ts'
import type { ColumnType, Row, TableForm } from './table-form.ts'

/** A cell as JSON has it: moments as ISO 8601 in UTC, bytes in base 64. */
export type Cell = string | number | boolean | null

/**
 * A cell in the one form that both databases and the archive share, so that equal rows give equal
 * lines. It takes what either database gives, and what a line holds.
 *
 * @throws Error where the value cannot be of the type
 */
export function cellOf(value: unknown, type: ColumnType): Cell {
  if (value === null || value === undefined) return null
  switch (type) {
    case 'boolean':
      return value === true || value === 1
    case 'integer':
    case 'number':
      return finite(value instanceof Date ? value.getTime() : Number(value), value)
    case 'moment':
      return moment(value)
    case 'bytes':
      return value instanceof Uint8Array ? Buffer.from(value).toString('base64') : String(value)
    case 'text':
      return value instanceof Date ? value.toISOString() : String(value)
  }
}

function finite(number: number, value: unknown): number {
  if (Number.isFinite(number)) return number
  throw new Error(`Expected a number, got ${JSON.stringify(value)}.`)
}

function moment(value: unknown): string {
  const time = value instanceof Date ? value : new Date(value as string | number)
  if (!Number.isNaN(time.getTime())) return time.toISOString()
  throw new Error(`Expected a moment, got ${JSON.stringify(value)}.`)
}

/** A cell as the driver of that kind of database takes it. */
export function storedForm(cell: Cell, type: ColumnType, kind: DatabaseKind): unknown {
  if (cell === null) return null
  if (type === 'bytes') return Buffer.from(String(cell), 'base64')
  if (type === 'boolean' && kind === 'sqlite') return cell ? 1 : 0
  return cell
}

/** One row as a line of the archive, without the end of the line. */
export function lineOf(row: Row, { name, columns }: Pick<TableForm, 'name' | 'columns'>): string {
  const cells = columns.map((column) => {
    try {
      return [column.name, cellOf(row[column.name], column.type)]
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error)
      throw new Error(`Table ${name}, column ${column.name}: ${reason}`, { cause: error })
    }
  })
  return JSON.stringify(Object.fromEntries(cells))
}
