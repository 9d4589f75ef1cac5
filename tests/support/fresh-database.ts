import { randomUUID } from 'node:crypto'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import pg from 'pg'
import { openStore } from '../../server/store/open-store.ts'
import { POSTGRES_VARIABLE } from './postgres-server.ts'

/** Set by the part of the test run that repeats the tests of store and server on PostgreSQL. */
export const KIND_VARIABLE = 'CROSSARM_TEST_KIND'

export type TestedKind = 'SQLite' | 'PostgreSQL'

/** The kind of database that this part of the run tests. */
export const TESTED_KIND: TestedKind =
  process.env[KIND_VARIABLE] === 'PostgreSQL' ? 'PostgreSQL' : 'SQLite'

export interface FreshDatabase {
  /** Left out for SQLite, whose database is a file in the data folder. */
  readonly databaseUrl?: string
  drop(): Promise<void>
}

/** An empty database for one test. */
export async function freshDatabase(kind = TESTED_KIND): Promise<FreshDatabase> {
  return kind === 'SQLite' ? ON_SQLITE : makeDatabase('template0')
}

/** A database for one test with all tables in it and no row, as the newest steps leave it. */
export async function tabledDatabase(): Promise<FreshDatabase> {
  if (TESTED_KIND === 'SQLite') return ON_SQLITE
  withTables ??= takeAllSteps()
  return makeDatabase(await withTables)
}

const ON_SQLITE: FreshDatabase = { drop: async () => undefined }

/** Taking all steps takes longer than copying what they made, so it is done once. */
let withTables: Promise<string> | null = null

async function takeAllSteps(): Promise<string> {
  const { databaseUrl } = await makeDatabase('template0')
  const folder = await mkdtemp(join(tmpdir(), 'crossarm-steps-'))
  const store = await openStore({ dataFolder: folder, ...(databaseUrl && { databaseUrl }) })
  await store.close()
  await rm(folder, { recursive: true, force: true })
  return nameIn(databaseUrl ?? '')
}

async function makeDatabase(template: string): Promise<FreshDatabase> {
  const server = new URL(process.env[POSTGRES_VARIABLE] ?? '')
  const name = `test_${randomUUID().replaceAll('-', '')}`
  await ask(server, `create database ${name} template ${template}`)
  const url = new URL(server)
  url.pathname = `/${name}`
  return {
    databaseUrl: url.href,
    drop: () => ask(server, `drop database if exists ${name} with (force)`),
  }
}

const nameIn = (databaseUrl: string) => new URL(databaseUrl).pathname.slice(1)

async function ask(server: URL, statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: server.href })
  await client.connect()
  try {
    await client.query(statement)
  } finally {
    await client.end()
  }
}
