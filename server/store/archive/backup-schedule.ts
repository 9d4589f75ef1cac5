import { readdir, rm, stat } from 'node:fs/promises'
import { join } from 'node:path'
import type { Clock } from '../../services/ports.ts'
import type { Database } from '../database.ts'
import type { Place } from '../place.ts'
import { backUp, nameOfMoment } from './back-up.ts'
import { SPOOL, UNFINISHED } from './safe-file.ts'
import type { WrittenArchive } from './write-archive.ts'

export interface Schedule {
  readonly folder: string
  readonly everyHours: number
  /** Newest ones that are kept. */
  readonly keep: number
}

export interface ScheduleOptions extends Schedule {
  readonly database: Database
  readonly place: Place
  /** Of the program. */
  readonly version: string
  readonly clock: Clock
  readonly reportFault: (fault: unknown) => void
  readonly onWritten?: (written: WrittenArchive) => void
  /** How often it is looked whether one is due. */
  readonly lookEveryMs?: number
}

const HOUR_MS = 60 * 60 * 1000
const LOOK_EVERY_MS = 60_000
/** What a backup that was killed left behind is no longer being written then. */
const LEFT_BEHIND_MS = 24 * HOUR_MS

const TURN = 'scheduled'
const NAME = /^scheduled-[0-9TZ-]+\.tar\.gz$/

/**
 * Makes a backup whenever one is due, by one of the servers of a database. Only one that is whole
 * lets older ones go; one that fails is told of and tried again within the hour.
 */
export class BackupSchedule {
  readonly #options: ScheduleOptions
  readonly #timer: NodeJS.Timeout
  #underWay: Promise<void> = Promise.resolve()

  constructor(options: ScheduleOptions) {
    this.#options = options
    this.#look()
    this.#timer = setInterval(() => this.#look(), options.lookEveryMs ?? LOOK_EVERY_MS)
  }

  /** Waits for one under way. */
  async stop(): Promise<void> {
    clearInterval(this.#timer)
    await this.#underWay
  }

  #look(): void {
    this.#underWay = this.#underWay
      .then(() => makeIfDue(this.#options))
      .catch((fault) => {
        this.#options.reportFault(fault)
      })
  }
}

async function makeIfDue(options: ScheduleOptions): Promise<void> {
  const { database, place, folder, version, clock, everyHours, keep, onWritten } = options
  const takenAt = clock()
  if (!(await takeTurn(database, takenAt, everyHours * HOUR_MS))) return
  try {
    const to = join(folder, `scheduled-${nameOfMoment(takenAt)}.tar.gz`)
    const written = await backUp({ place, to, version, takenAt })
    await letGo(folder, keep)
    onWritten?.(written)
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error)
    await giveTurnBack(database, takenAt, everyHours * HOUR_MS)
    throw new Error(`The backup of ${takenAt} failed; older ones are kept. ${reason}`, {
      cause: error,
    })
  }
}

/** False where another server made one not long ago, or is about to. */
async function takeTurn(database: Database, now: string, everyMs: number): Promise<boolean> {
  if (!isDue(await lastTurn(database), now, everyMs)) return false
  return database.transaction(async () => {
    if (!isDue(await lastTurn(database), now, everyMs)) return false
    await noteTurn(database, now)
    return true
  })
}

/** A time far ahead was noted before the clock was set back, and says nothing. */
function isDue(last: string | undefined, now: string, everyMs: number): boolean {
  if (last === undefined) return true
  const sinceMs = Date.parse(now) - Date.parse(last)
  return sinceMs >= everyMs || sinceMs < -HOUR_MS
}

async function lastTurn(database: Database): Promise<string | undefined> {
  const row = await database.query
    .selectFrom('backup_turns')
    .select('taken_at')
    .where('name', '=', TURN)
    .executeTakeFirst()
  return row?.taken_at
}

async function giveTurnBack(database: Database, now: string, everyMs: number): Promise<void> {
  const again = Date.parse(now) - everyMs + Math.min(everyMs, HOUR_MS)
  await noteTurn(database, new Date(again).toISOString())
}

function noteTurn(database: Database, at: string): Promise<unknown> {
  return database.transaction((transaction) =>
    transaction
      .insertInto('backup_turns')
      .values({ name: TURN, taken_at: at })
      .onConflict((conflict) => conflict.column('name').doUpdateSet({ taken_at: at }))
      .execute(),
  )
}

async function letGo(folder: string, keep: number): Promise<void> {
  const names = (await readdir(folder)).sort()
  const scheduled = names.filter((name) => NAME.test(name))
  for (const name of scheduled.slice(0, -keep)) await rm(join(folder, name))
  const unfinished = names.filter((name) => name.endsWith(UNFINISHED) || name.startsWith(SPOOL))
  for (const path of unfinished.map((name) => join(folder, name))) {
    const found = await stat(path).catch(() => null)
    if (found && Date.now() - found.mtimeMs > LEFT_BEHIND_MS) {
      await rm(path, { recursive: true, force: true })
    }
  }
}
