import type { IDBPDatabase } from 'idb'
import { type DeviceTables, KEY_OF, type RowOf, type TableName } from './device-tables.ts'
import { deviceTrouble, sayTrouble } from './device-troubles.ts'
import { openDatabase } from './open-database.ts'

type Database = IDBPDatabase<DeviceTables>
type Row = RowOf<TableName>

/** A row to be put in, or the key of one to be taken out. */
export type Change = {
  readonly [Name in TableName]:
    | { readonly table: Name; readonly put: RowOf<Name> }
    | { readonly table: Name; readonly drop: string }
}[TableName]

/** What is nowhere else is safe on the device once it resolves, also where the power fails right after. */
const SAFELY = { durability: 'strict' } as const
/** Copies can be had again, so their writing waits for no disk. */
const LIGHTLY = { durability: 'relaxed' } as const
const CAN_BE_HAD_AGAIN: readonly TableName[] = ['copies', 'contents']

let opening: Promise<Database | null> | null = null
/** What the disk did not take; null stands for a row that is taken out. */
const inMemory = new Map<TableName, Map<string, Row | null>>()
const listeners = new Set<(table: TableName) => void>()

const channel = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('crossarm')
if (channel) {
  channel.onmessage = ({ data }: MessageEvent<TableName>) => tellHere(data)
  // Under Node a channel that listens would keep the process alive.
  ;(channel as { unref?: () => void }).unref?.()
}

/** The database, or null where there is none for now: then all lives in memory, and that is said. */
function database(): Promise<Database | null> {
  opening ??= new Promise((resolve) => {
    const onClosed = () => {
      opening = null
    }
    openDatabase({ onClosed, onBlocked: () => resolve(null) }).then(
      (opened) => {
        resolve(opened)
        opening = Promise.resolve(opened)
        settleMemory().catch(sayTrouble)
      },
      (error: unknown) => {
        sayTrouble(error)
        resolve(null)
      },
    )
  })
  return opening
}

/** Calls when a table was changed, by this window or another one. */
export function onTableChange(listener: (table: TableName) => void): () => void {
  listeners.add(listener)
  return () => listeners.delete(listener)
}

export async function readRow<Name extends TableName>(
  table: Name,
  key: string,
): Promise<RowOf<Name> | undefined> {
  const held = inMemory.get(table)?.get(key)
  if (held !== undefined) return (held as RowOf<Name> | null) ?? undefined
  return (await database())?.get(table, key)
}

export async function readAll<Name extends TableName>(table: Name): Promise<RowOf<Name>[]> {
  const rows = (await (await database())?.getAll(table)) ?? []
  const held = inMemory.get(table)
  if (!held?.size) return rows
  const kept = rows.filter((row) => !held.has(keyOf(table, row)))
  return [...kept, ...([...held.values()].filter((row) => row !== null) as RowOf<Name>[])]
}

/**
 * Writes all changes or none. Resolves once they are safe on the device.
 *
 * @throws the browser's error where the device does not take them
 */
export async function writeRows(changes: readonly Change[]): Promise<void> {
  const opened = await database()
  if (opened) await writeToDisk(opened, changes)
  else for (const change of changes) holdInMemory(change)
  tellAll(changes)
}

/** Like `writeRows`; what the device does not take is held as long as the page lives, and that is said. */
export async function writeRowsAnyhow(changes: readonly Change[]): Promise<void> {
  try {
    await writeRows(changes)
  } catch (error) {
    sayTrouble(error)
    for (const change of changes) holdInMemory(change)
    tellAll(changes)
  }
}

/**
 * Changes one row as it stands, with no other window in between. What the device does not take is
 * held as long as the page lives, and that is said.
 *
 * @param next gives the new row, or undefined to leave it as it is
 * @returns the row as it stands afterwards
 */
export async function changeRow<Name extends TableName>(
  table: Name,
  key: string,
  next: (row: RowOf<Name>) => RowOf<Name> | undefined,
): Promise<RowOf<Name> | undefined> {
  const held = inMemory.get(table)?.get(key) as RowOf<Name> | null | undefined
  const opened = held === undefined ? await database() : null
  if (!opened) {
    const after = held ? (next(held) ?? held) : undefined
    if (after) await writeRowsAnyhow([{ table, put: after } as Change])
    return after
  }
  const writing = opened.transaction(table, 'readwrite', SAFELY)
  let row: RowOf<Name> | undefined
  let isChanged = false
  try {
    await allOrNothing(writing, async () => {
      row = await writing.store.get(key)
      const after = row && next(row)
      if (!after) return
      row = after
      isChanged = true
      await writing.store.put(after)
    })
  } catch (error) {
    if (!row || !isChanged) throw error
    sayTrouble(error)
    holdInMemory({ table, put: row } as Change)
  }
  if (row && isChanged) tellAll([{ table, put: row } as Change])
  return row
}

/** Tries again to bring to the device what it did not take before. */
export async function settleMemory(): Promise<void> {
  const changes = [...inMemory].flatMap(([table, rows]) =>
    [...rows].map(([key, row]) => (row === null ? { table, drop: key } : { table, put: row })),
  ) as Change[]
  const opened = changes.length > 0 ? await database() : null
  if (!opened) return
  await writeToDisk(opened, changes)
  deviceTrouble.set(null)
  tellAll(changes)
}

async function writeToDisk(opened: Database, changes: readonly Change[]): Promise<void> {
  const tables = [...new Set(changes.map(({ table }) => table))]
  const isOfCopies = tables.every((table) => CAN_BE_HAD_AGAIN.includes(table))
  const writing = opened.transaction(tables, 'readwrite', isOfCopies ? LIGHTLY : SAFELY)
  await allOrNothing(writing, async () => {
    const asked: Promise<unknown>[] = []
    for (const change of changes) {
      const store = writing.objectStore(change.table)
      const one = 'put' in change ? store.put(change.put) : store.delete(change.drop)
      // Where a later one cannot even be asked, nobody waits for this one any more.
      one.catch(() => undefined)
      asked.push(one)
    }
    await Promise.all(asked)
  })
  for (const change of changes) inMemory.get(change.table)?.delete(keyOfChange(change))
}

interface Writing {
  readonly done: Promise<void>
  abort(): void
}

/** A row that the browser cannot take also takes back those before it. */
async function allOrNothing(writing: Writing, work: () => Promise<void>): Promise<void> {
  const done = writing.done.then(
    () => null,
    (error: unknown) => ({ error }),
  )
  try {
    await work()
  } catch (error) {
    try {
      writing.abort()
    } catch {
      // It has ended by itself.
    }
    await done
    throw error
  }
  const failed = await done
  if (failed) throw failed.error
}

function holdInMemory(change: Change): void {
  const rows = inMemory.get(change.table) ?? new Map<string, Row | null>()
  rows.set(keyOfChange(change), 'put' in change ? change.put : null)
  inMemory.set(change.table, rows)
}

function keyOfChange(change: Change): string {
  return 'put' in change ? keyOf(change.table, change.put) : change.drop
}

function keyOf(table: TableName, row: Row): string {
  return String((row as unknown as Record<string, unknown>)[KEY_OF[table]])
}

function tellAll(changes: readonly Change[]): void {
  for (const table of new Set(changes.map((change) => change.table))) {
    tellHere(table)
    channel?.postMessage(table)
  }
}

function tellHere(table: TableName): void {
  for (const listener of [...listeners]) listener(table)
}
