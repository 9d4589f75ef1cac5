import { type CreateTableBuilder, type Kysely, sql } from 'kysely'
import type { DatabaseKind } from '../database.ts'

/** Column types as the library of sign-in names them on each kind of database. */
const TYPES = {
  sqlite: { moment: sql`date`, flag: 'integer' },
  postgres: { moment: sql`timestamptz`, flag: 'boolean' },
} as const

/** The people, and what they sign in with. Tables named `auth_…` are written by the library of sign-in. */
export async function up(db: Kysely<unknown>, kind: DatabaseKind): Promise<void> {
  await makePeople(db)
  await makeTokens(db)
  await makeTries(db)
  await makeUsersAndSessions(db, kind)
  await makeCredentials(db, kind)
}

async function makePeople(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('people')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('email', 'text', (column) => column.notNull().unique())
    .addColumn('roles', 'text', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('is_demo', 'integer', (column) => column.notNull())
    .addColumn('version', 'integer', (column) => column.notNull())
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('changed_at', 'text', (column) => column.notNull())
    .addColumn('last_sign_in_at', 'text')
    .execute()
  await db.schema
    .createTable('invitations')
    .addColumn('secret_hash', 'text', (column) => column.primaryKey())
    .addColumn('person_id', 'text', (column) => column.notNull().references('people.id'))
    .addColumn('ends_at', 'text', (column) => column.notNull())
    .execute()
  await makeIndex(db, 'invitations', 'person_id')
}

async function makeTokens(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('tokens')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('secret_hash', 'text', (column) => column.notNull().unique())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('role', 'text', (column) => column.notNull())
    .addColumn('rights', 'text', (column) => column.notNull())
    .addColumn('version', 'integer', (column) => column.notNull())
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('made_at', 'text', (column) => column.notNull())
    .addColumn('ends_at', 'text', (column) => column.notNull())
    .addColumn('revoked_at', 'text')
    .addColumn('last_used_at', 'text')
    .execute()
}

/** Failed tries to sign in, by a hash of whom and from where. */
async function makeTries(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('sign_in_tries')
    .addColumn('key', 'text', (column) => column.primaryKey())
    .addColumn('failures', 'integer', (column) => column.notNull())
    .addColumn('open_at', 'text', (column) => column.notNull())
    .addColumn('forget_at', 'text', (column) => column.notNull())
    .execute()
  await makeIndex(db, 'sign_in_tries', 'forget_at')
}

async function makeUsersAndSessions(db: Kysely<unknown>, kind: DatabaseKind): Promise<void> {
  const { moment, flag } = TYPES[kind]
  await db.schema
    .createTable('auth_users')
    .addColumn('id', 'text', (column) => column.primaryKey().notNull())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('email', 'text', (column) => column.notNull().unique())
    .addColumn('emailVerified', flag, (column) => column.notNull())
    .addColumn('image', 'text')
    .addColumn('createdAt', moment, (column) => column.notNull())
    .addColumn('updatedAt', moment, (column) => column.notNull())
    .addColumn('twoFactorEnabled', flag)
    .execute()
  await ofUser(db.schema.createTable('auth_sessions'))
    .addColumn('expiresAt', moment, (column) => column.notNull())
    .addColumn('token', 'text', (column) => column.notNull().unique())
    .addColumn('createdAt', moment, (column) => column.notNull())
    .addColumn('updatedAt', moment, (column) => column.notNull())
    .addColumn('ipAddress', 'text')
    .addColumn('userAgent', 'text')
    .execute()
  await makeIndex(db, 'auth_sessions', 'userId')
}

async function makeCredentials(db: Kysely<unknown>, kind: DatabaseKind): Promise<void> {
  const { moment, flag } = TYPES[kind]
  await ofUser(db.schema.createTable('auth_accounts'))
    .addColumn('accountId', 'text', (column) => column.notNull())
    .addColumn('providerId', 'text', (column) => column.notNull())
    .addColumn('accessToken', 'text')
    .addColumn('refreshToken', 'text')
    .addColumn('idToken', 'text')
    .addColumn('accessTokenExpiresAt', moment)
    .addColumn('refreshTokenExpiresAt', moment)
    .addColumn('scope', 'text')
    .addColumn('password', 'text')
    .addColumn('createdAt', moment, (column) => column.notNull())
    .addColumn('updatedAt', moment, (column) => column.notNull())
    .execute()
  await db.schema
    .createTable('auth_verifications')
    .addColumn('id', 'text', (column) => column.primaryKey().notNull())
    .addColumn('identifier', 'text', (column) => column.notNull())
    .addColumn('value', 'text', (column) => column.notNull())
    .addColumn('expiresAt', moment, (column) => column.notNull())
    .addColumn('createdAt', moment, (column) => column.notNull())
    .addColumn('updatedAt', moment, (column) => column.notNull())
    .execute()
  await ofUser(db.schema.createTable('auth_second_factors'))
    .addColumn('secret', 'text', (column) => column.notNull())
    .addColumn('backupCodes', 'text', (column) => column.notNull())
    .addColumn('verified', flag)
    .addColumn('failedVerificationCount', 'integer')
    .addColumn('lockedUntil', moment)
    .execute()
  await ofUser(db.schema.createTable('auth_passkeys'))
    .addColumn('name', 'text')
    .addColumn('publicKey', 'text', (column) => column.notNull())
    .addColumn('credentialID', 'text', (column) => column.notNull())
    .addColumn('counter', 'integer', (column) => column.notNull())
    .addColumn('deviceType', 'text', (column) => column.notNull())
    .addColumn('backedUp', flag, (column) => column.notNull())
    .addColumn('transports', 'text')
    .addColumn('createdAt', moment)
    .addColumn('aaguid', 'text')
    .execute()
  await makeIndex(db, 'auth_accounts', 'userId')
  await makeIndex(db, 'auth_verifications', 'identifier')
  await makeIndex(db, 'auth_second_factors', 'secret')
  await makeIndex(db, 'auth_second_factors', 'userId')
  await makeIndex(db, 'auth_passkeys', 'userId')
  await makeIndex(db, 'auth_passkeys', 'credentialID')
}

function ofUser<Name extends string>(table: CreateTableBuilder<Name, never>) {
  return table
    .addColumn('id', 'text', (column) => column.primaryKey().notNull())
    .addColumn('userId', 'text', (column) =>
      column.notNull().references('auth_users.id').onDelete('cascade'),
    )
}

async function makeIndex(db: Kysely<unknown>, table: string, column: string): Promise<void> {
  await db.schema.createIndex(`${table}_${column}_idx`).on(table).column(column).execute()
}
