import type { TableForm } from './table-form.ts'

/** Kept by the tool that brings tables up to date; the manifest says the same in one word. */
const OF_THE_STEPS = ['kysely_migration', 'kysely_migration_lock']

/** What is worth nothing, or worse than nothing, in another place or at another time. */
const OF_THE_MOMENT = ['auth_sessions', 'auth_verifications', 'sign_in_tries', 'backup_turns']

const isOneOf = (names: readonly string[]) => (table: TableForm) => names.includes(table.name)

/** Tables that a backup leaves out: who is signed in, tries to sign in, and whose turn a backup is. */
export function splitForBackup(tables: readonly TableForm[]) {
  const known = tables.filter((table) => !isOneOf(OF_THE_STEPS)(table))
  return {
    kept: known.filter((table) => !isOneOf(OF_THE_MOMENT)(table)),
    leftOut: known.filter(isOneOf(OF_THE_MOMENT)).map(({ name }) => name),
  }
}

/** Tables that go along when the database moves: people stay signed in. */
export function tablesToMove(tables: readonly TableForm[]): TableForm[] {
  return tables.filter((table) => !isOneOf([...OF_THE_STEPS, 'backup_turns'])(table))
}
