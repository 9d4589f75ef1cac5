import type { Transaction } from 'kysely'
import type {
  AcceptedAs,
  AccountStep,
  NewInvitation,
  NewPerson,
  PersonStore,
  StoredPerson,
} from '../services/people-ports.ts'
import type { Stamp } from '../services/ports.ts'
import type { Database } from './database.ts'
import { appendHistory } from './history.ts'
import { personOf } from './person-row.ts'
import type { Tables } from './tables.ts'

/** People, each with a row of the library of sign-in beside it under the same id. */
export function personRepository(db: Database): PersonStore {
  const find = async (personId: string) => {
    const row = await db.query
      .selectFrom('people')
      .selectAll()
      .where('id', '=', personId)
      .executeTakeFirst()
    return row ? personOf(row) : null
  }
  const findByEmail = async (email: string) => {
    const row = await db.query
      .selectFrom('people')
      .selectAll()
      .where('email', '=', email.toLowerCase())
      .executeTakeFirst()
    return row ? personOf(row) : null
  }
  return {
    find,
    findByEmail,
    list: async () => {
      const rows = await db.query
        .selectFrom('people')
        .selectAll()
        .orderBy('name')
        .orderBy('id')
        .execute()
      return rows.map(personOf)
    },
    countAdministrators: () => countAdministrators(db),
    hasSecondFactor: async (personId) => {
      const user = await db.query
        .selectFrom('auth_users')
        .select('twoFactorEnabled')
        .where('id', '=', personId)
        .executeTakeFirst()
      return Boolean(user?.twoFactorEnabled)
    },
    hasPassword: async (personId) => {
      const account = await db.query
        .selectFrom('auth_accounts')
        .select('id')
        .where('userId', '=', personId)
        .where('providerId', '=', PASSWORD)
        .executeTakeFirst()
      return account !== undefined
    },

    add: (person, stamp, invitation) =>
      db.transaction(async (transaction) => {
        if (await findByEmail(person.email)) return { status: 'email-taken' }
        const added = await addPerson(transaction, person, stamp)
        if (invitation) await addInvitation(transaction, person.id, invitation)
        return { status: 'added', person: added }
      }),

    change: (personId, version, next, stamp) =>
      db.transaction(async (transaction) => {
        const current = await find(personId)
        if (!current) return { status: 'missing' }
        if (current.version !== version) return { status: 'stale', current }
        const isLast = isAdministrator(current) && (await countAdministrators(db)) === 1
        if (isLast && !isAdministrator({ ...current, ...next }))
          return { status: 'wrong-state', current }
        const record = await write(transaction, current, next, stamp)
        if (next.state !== 'active') await endSessions(transaction, personId)
        if (next.state === 'closed') await dropInvitations(transaction, personId)
        return { status: 'written', record }
      }),

    invite: (personId, invitation, stamp) =>
      db.transaction(async (transaction) => {
        const person = await find(personId)
        if (!person) return null
        await dropInvitations(transaction, personId)
        await addInvitation(transaction, personId, invitation)
        return write(transaction, person, person, stamp, 'link-made')
      }),

    findInvitation: async (secretHash) => {
      const found = await db.query
        .selectFrom('invitations')
        .selectAll()
        .where('secret_hash', '=', secretHash)
        .executeTakeFirst()
      const person = found && (await find(found.person_id))
      return person ? { person, endsAt: found.ends_at } : null
    },

    accept: (secretHash, given, at) =>
      db.transaction(async (transaction) => {
        const kept = await transaction
          .selectFrom('invitations')
          .select('person_id')
          .where('secret_hash', '=', secretHash)
          .where('ends_at', '>', at)
          .executeTakeFirst()
        const person = kept && (await find(kept.person_id))
        if (!person || person.state === 'closed') return null
        const other = await findByEmail(given.email)
        if (other && other.id !== person.id) return { status: 'email-taken' }
        return { status: 'added', person: await comeIn(transaction, person, given, at) }
      }),

    activate: (personId, at) =>
      db.transaction(async (transaction) => {
        const person = await find(personId)
        if (person?.state !== 'invited') return
        await dropInvitations(transaction, personId)
        await write(transaction, person, { ...person, state: 'active' }, byOneself(person, at))
      }),

    noteSignIn: (personId, at) =>
      db.transaction(async (transaction) => {
        await transaction
          .updateTable('people')
          .set({ last_sign_in_at: at })
          .where('id', '=', personId)
          .execute()
      }),

    noteStep: (personId, step, stamp) =>
      db.transaction(async (transaction) => {
        const person = await find(personId)
        if (person) await write(transaction, person, person, stamp, step)
      }),
  }
}

/** The name by which the library of sign-in knows an account with a password. */
const PASSWORD = 'credential'

/** Takes up the invitation: whoever has it owns the account, with nothing left of who had it before. */
async function comeIn(
  transaction: Transaction<Tables>,
  person: StoredPerson,
  { name, email, passwordHash }: AcceptedAs,
  at: string,
): Promise<StoredPerson> {
  await setPassword(transaction, person.id, passwordHash, at)
  await dropInvitations(transaction, person.id)
  await endSessions(transaction, person.id)
  await setEmail(transaction, person.id, email.toLowerCase())
  const next = { ...person, name, state: 'active' as const }
  const step = person.state === 'active' ? 'password-set-anew' : undefined
  return write(transaction, person, next, byOneself(person, at), step)
}

async function setEmail(
  transaction: Transaction<Tables>,
  personId: string,
  email: string,
): Promise<void> {
  for (const table of ['people', 'auth_users'] as const) {
    await transaction.updateTable(table).set({ email }).where('id', '=', personId).execute()
  }
}

type Changeable = Pick<StoredPerson, 'name' | 'roles' | 'state'>

function isAdministrator({ roles, state }: Pick<StoredPerson, 'roles' | 'state'>): boolean {
  return state === 'active' && roles.includes('administrator')
}

async function countAdministrators(db: Database): Promise<number> {
  const rows = await db.query
    .selectFrom('people')
    .selectAll()
    .where('state', '=', 'active')
    .execute()
  return rows.map(personOf).filter(isAdministrator).length
}

async function addPerson(
  transaction: Transaction<Tables>,
  person: NewPerson,
  stamp: Stamp,
): Promise<StoredPerson> {
  const { id, name, state, roles, isDemo } = person
  const email = person.email.toLowerCase()
  const { actor, at } = stamp
  const row = {
    id,
    name,
    email,
    roles: JSON.stringify(roles),
    state,
    is_demo: Number(isDemo),
    version: 1,
    actor_id: actor.id,
    actor_role: actor.role,
    changed_at: at,
    last_sign_in_at: null,
  }
  await transaction.insertInto('people').values(row).execute()
  await transaction
    .insertInto('auth_users')
    .values({ id, name, email, emailVerified: 1, createdAt: at, updatedAt: at })
    .execute()
  const added = personOf(row)
  await appendHistory(transaction, entryOf(null, added), stamp)
  return added
}

async function write(
  transaction: Transaction<Tables>,
  before: StoredPerson,
  { name, roles, state }: Changeable,
  stamp: Stamp,
  step?: AccountStep,
): Promise<StoredPerson> {
  const { actor, at } = stamp
  const row = await transaction
    .updateTable('people')
    .set({
      name,
      roles: JSON.stringify(roles),
      state,
      version: before.version + 1,
      actor_id: actor.id,
      actor_role: actor.role,
      changed_at: at,
    })
    .where('id', '=', before.id)
    .returningAll()
    .executeTakeFirstOrThrow()
  await transaction
    .updateTable('auth_users')
    .set({ name, updatedAt: at })
    .where('id', '=', before.id)
    .execute()
  const after = personOf(row)
  await appendHistory(transaction, entryOf(before, after, step), stamp)
  return after
}

/** Neither email nor password goes into the history, which nobody can take back. */
function entryOf(before: StoredPerson | null, after: StoredPerson, step?: AccountStep) {
  return {
    subject: 'person' as const,
    feederId: null,
    subjectId: after.id,
    version: after.version,
    before: before && kept(before),
    after: { ...kept(after), ...(step && { step }) },
  }
}

function kept({ name, roles, state }: StoredPerson): Changeable {
  return { name, roles, state }
}

function byOneself({ id, roles }: StoredPerson, at: string): Stamp {
  const [role = 'reader'] = roles
  return { actor: { id, role }, at }
}

async function setPassword(
  transaction: Transaction<Tables>,
  personId: string,
  password: string,
  at: string,
): Promise<void> {
  await transaction
    .deleteFrom('auth_accounts')
    .where('userId', '=', personId)
    .where('providerId', '=', PASSWORD)
    .execute()
  await transaction
    .insertInto('auth_accounts')
    .values({
      id: `${PASSWORD}-${personId}`,
      userId: personId,
      accountId: personId,
      providerId: PASSWORD,
      password,
      createdAt: at,
      updatedAt: at,
    })
    .execute()
  for (const table of ['auth_second_factors', 'auth_passkeys'] as const) {
    await transaction.deleteFrom(table).where('userId', '=', personId).execute()
  }
  await transaction
    .updateTable('auth_users')
    .set({ twoFactorEnabled: 0, updatedAt: at })
    .where('id', '=', personId)
    .execute()
}

async function endSessions(transaction: Transaction<Tables>, personId: string): Promise<void> {
  await transaction.deleteFrom('auth_sessions').where('userId', '=', personId).execute()
}

async function addInvitation(
  transaction: Transaction<Tables>,
  personId: string,
  { secretHash, endsAt }: NewInvitation,
): Promise<void> {
  await transaction
    .insertInto('invitations')
    .values({ secret_hash: secretHash, person_id: personId, ends_at: endsAt })
    .execute()
}

async function dropInvitations(transaction: Transaction<Tables>, personId: string): Promise<void> {
  await transaction.deleteFrom('invitations').where('person_id', '=', personId).execute()
}
