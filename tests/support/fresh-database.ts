import { randomUUID } from 'node:crypto'
import pg from 'pg'
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
  if (kind === 'SQLite') return { drop: async () => undefined }
  const server = new URL(process.env[POSTGRES_VARIABLE] ?? '')
  const name = `test_${randomUUID().replaceAll('-', '')}`
  await ask(server, `create database ${name} template template0`)
  const url = new URL(server)
  url.pathname = `/${name}`
  return {
    databaseUrl: url.href,
    drop: () => ask(server, `drop database if exists ${name} with (force)`),
  }
}

async function ask(server: URL, statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: server.href })
  await client.connect()
  try {
    await client.query(statement)
  } finally {
    await client.end()
  }
}
