import type { Selectable } from 'kysely'
import type { SessionStore, StoredSession } from '../services/people-ports.ts'
import type { Database } from './database.ts'
import { personOf } from './person-row.ts'
import type { AuthMoment, Tables } from './tables.ts'

/** Sessions, which the library of sign-in begins. */
export function sessionRepository(db: Database): SessionStore {
  return {
    find: async (token) => {
      const found = await db.query
        .selectFrom('auth_sessions as session')
        .innerJoin('people', 'people.id', 'session.userId')
        .selectAll('people')
        .select(['session.id as sessionId', 'session.token', 'session.userId', 'session.userAgent'])
        .select(['session.createdAt', 'session.expiresAt', 'session.updatedAt'])
        .where('session.token', '=', token)
        .executeTakeFirst()
      if (!found) return null
      return { session: sessionOf({ ...found, id: found.sessionId }), person: personOf(found) }
    },
    listOf: async (personId) => {
      const rows = await db.query
        .selectFrom('auth_sessions')
        .selectAll()
        .where('userId', '=', personId)
        .orderBy('createdAt', 'desc')
        .orderBy('id')
        .execute()
      return rows.map(sessionOf)
    },
    extend: (sessionId, endsAt, at) =>
      db.transaction(async (transaction) => {
        await transaction
          .updateTable('auth_sessions')
          .set({ expiresAt: endsAt, updatedAt: at })
          .where('id', '=', sessionId)
          .execute()
      }),
    end: (personId, sessionId) =>
      db.transaction(async (transaction) => {
        const ended = await transaction
          .deleteFrom('auth_sessions')
          .where('userId', '=', personId)
          .where('id', '=', sessionId)
          .executeTakeFirst()
        return Number(ended.numDeletedRows) > 0
      }),
    endAllBut: (personId, keptSessionId) =>
      db.transaction(async (transaction) => {
        await transaction
          .deleteFrom('auth_sessions')
          .where('userId', '=', personId)
          .where('id', '!=', keptSessionId ?? '')
          .execute()
      }),
  }
}

type SessionRow = Selectable<Tables['auth_sessions']>

function sessionOf(row: SessionRow): StoredSession {
  return {
    id: row.id,
    token: row.token,
    personId: row.userId,
    startedAt: momentOf(row.createdAt),
    endsAt: momentOf(row.expiresAt),
    device: row.userAgent || null,
  }
}

function momentOf(moment: AuthMoment['__select__']): string {
  return new Date(moment).toISOString()
}
