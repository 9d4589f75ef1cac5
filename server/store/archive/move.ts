import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { Database } from '../database.ts'
import { claimFolder } from '../folder-claim.ts'
import { MIGRATIONS, migrate } from '../migrate.ts'
import { DATABASE_FILE } from '../place.ts'
import { openPostgres } from '../postgres.ts'
import { historyHead, lastStep } from './archive-facts.ts'
import { checkHistory } from './check-history.ts'
import { tablesToMove } from './left-out.ts'
import { type Filling, fillTable, readBack, type Sum, sumOf, tableFormsIn } from './load-tables.ts'
import { moveAttachments } from './move-attachments.ts'
import { refuseFilled } from './restore.ts'
import { type Snapshot, snapshotOfFile } from './snapshot.ts'
import type { TableForm } from './table-form.ts'
import { beginMove, endMove, isUnderWay, noteMoved, tablesMoved } from './unfinished-move.ts'
import type { OnProgress } from './write-archive.ts'

export interface MoveOptions {
  /** Folder whose SQLite file moves. The file is left as it is. */
  readonly dataFolder: string
  /** PostgreSQL database, empty or left by a move that was cut short. */
  readonly url: string
  /** Data folder to copy attached files into; left out, they stay where they are. */
  readonly filesTo?: string
  readonly onProgress?: OnProgress
}

export interface MoveReport {
  readonly tables: readonly (Sum & { readonly name: string })[]
  /** How many of them an earlier try had moved. */
  readonly movedBefore: number
  readonly attachments: number
  /** Hashes of attached files that the record names and the folder does not hold. */
  readonly missing: readonly string[]
}

/**
 * Moves a record from SQLite to PostgreSQL, table by table, each whole or not at all, so that a
 * second try goes on where the first was cut short. Nobody writes to the file meanwhile. Counts,
 * hashes and the chain of the history are held against the file before the move is over.
 *
 * @throws Error where a server has the folder, the target holds something else, or a check fails
 */
export async function move(options: MoveOptions): Promise<MoveReport> {
  const { dataFolder, url, filesTo } = options
  const file = join(dataFolder, DATABASE_FILE)
  if (!existsSync(file)) throw new Error(`There is no database ${file} to move.`)
  const claim = claimFolder(dataFolder)
  if (!claim.isHeld) {
    throw new Error(`A server runs on the folder ${dataFolder}. Stop it first, then move.`)
  }
  const database = new Database(openPostgres(url, () => undefined))
  try {
    const snapshot = await snapshotOfFile(file, true)
    try {
      const tables = await moveTables(snapshot, database, options.onProgress)
      return { ...tables, ...(await moveAttachments(snapshot, dataFolder, filesTo)) }
    } finally {
      await snapshot.close()
    }
  } finally {
    await database.close()
    claim.release()
  }
}

async function moveTables(
  snapshot: Snapshot,
  database: Database,
  onProgress: OnProgress = () => undefined,
): Promise<Pick<MoveReport, 'tables' | 'movedBefore'>> {
  const step = await lastStep(snapshot)
  if (!(step in MIGRATIONS)) {
    throw new Error(`A newer version of Crossarm wrote the file: it has the step ${step}.`)
  }
  const names = tablesToMove(snapshot.tables).map(({ name }) => name)
  const { movedBefore, forms } = await inTarget(database, async (filling) => ({
    movedBefore: await begin(filling, step),
    forms: await tableFormsIn(filling),
  }))
  const report: (Sum & { name: string })[] = []
  for (const name of names) {
    onProgress(report.length, names.length, `Table ${name}`)
    const sum = await inTarget(database, (filling) =>
      moveTable(filling, snapshot, formOf(forms, name)),
    )
    report.push({ name, ...sum })
  }
  onProgress(names.length, names.length, 'History')
  await inTarget(database, async (filling) => {
    for (const { name, ...sum } of report) await holdAgainst(filling, formOf(forms, name), sum)
    await migrate(filling.transaction, filling.kind)
    await checkHistory(database, await historyHead(snapshot))
    await endMove(filling)
  })
  return { tables: report, movedBefore }
}

function inTarget<Result>(
  database: Database,
  work: (filling: Filling) => Promise<Result>,
): Promise<Result> {
  return database.transaction((transaction) => work({ transaction, kind: database.kind }))
}

/** Gives how many tables are there already. */
async function begin(filling: Filling, step: string): Promise<number> {
  if (await isUnderWay(filling.transaction)) return (await tablesMoved(filling)).size
  await refuseFilled(filling)
  await migrate(filling.transaction, filling.kind, step)
  await beginMove(filling)
  return 0
}

async function moveTable(filling: Filling, snapshot: Snapshot, target: TableForm): Promise<Sum> {
  const { name } = target
  const source = formOf(snapshot.tables, name)
  const moved = (await tablesMoved(filling)).get(name)
  if (moved) return holdSource(moved, await sumOf(snapshot.rows(source), target), name)
  const sum = await fillTable(filling, target, snapshot.rows(source))
  await noteMoved(filling, name, sum)
  return sum
}

function formOf(forms: readonly TableForm[], name: string): TableForm {
  const form = forms.find((table) => table.name === name)
  if (form) return form
  throw new Error(`Expected a table ${name} on both sides of the move.`)
}

function holdSource(moved: Sum, now: Sum, name: string): Sum {
  if (moved.sha256 === now.sha256) return moved
  throw new Error(
    `The file was written to since the move was begun: table ${name} differs. Empty the target database and move again.`,
  )
}

async function holdAgainst(filling: Filling, form: TableForm, sum: Sum): Promise<void> {
  const found = await sumOf(readBack(filling, form), form)
  if (found.rows === sum.rows && found.sha256 === sum.sha256) return
  throw new Error(`Table ${form.name} in the target is not what was moved there.`)
}
