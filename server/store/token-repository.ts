import type { Right, Role, Token, TokenStore } from '../services/people-ports.ts'
import type { Database } from './database.ts'
import { appendHistory } from './history.ts'
import type { TokenRow } from './tables.ts'

/** Tokens of machines; of each secret only a hash is kept. */
export function tokenRepository(db: Database): TokenStore {
  const find = async (tokenId: string) => {
    const row = await db.query
      .selectFrom('tokens')
      .selectAll()
      .where('id', '=', tokenId)
      .executeTakeFirst()
    return row ? tokenOf(row) : null
  }
  return {
    find,
    list: async () => {
      const rows = await db.query
        .selectFrom('tokens')
        .selectAll()
        .orderBy('made_at', 'desc')
        .orderBy('id')
        .execute()
      return rows.map(tokenOf)
    },
    findBySecret: async (secretHash) => {
      const row = await db.query
        .selectFrom('tokens')
        .selectAll()
        .where('secret_hash', '=', secretHash)
        .executeTakeFirst()
      return row ? tokenOf(row) : null
    },

    add: (token, secretHash, stamp) =>
      db.transaction(async (transaction) => {
        const { id, name, role, rights, madeBy, madeAt, endsAt } = token
        await transaction
          .insertInto('tokens')
          .values({
            id,
            secret_hash: secretHash,
            name,
            role,
            rights: JSON.stringify(rights),
            version: 1,
            actor_id: madeBy.id,
            actor_role: madeBy.role,
            made_at: madeAt,
            ends_at: endsAt,
            revoked_at: null,
            last_used_at: null,
          })
          .execute()
        await appendHistory(transaction, entryOf(null, token, 1), stamp)
      }),

    revoke: (tokenId, stamp) =>
      db.transaction(async (transaction) => {
        const current = await find(tokenId)
        if (!current) return { status: 'missing' }
        if (current.revokedAt !== null) return { status: 'wrong-state', current }
        const row = await transaction
          .updateTable('tokens')
          .set({ revoked_at: stamp.at, version: 2 })
          .where('id', '=', tokenId)
          .returningAll()
          .executeTakeFirstOrThrow()
        const record = tokenOf(row)
        await appendHistory(transaction, entryOf(current, record, 2), stamp)
        return { status: 'written', record }
      }),

    noteUse: (tokenId, at) =>
      db.transaction(async (transaction) => {
        await transaction
          .updateTable('tokens')
          .set({ last_used_at: at })
          .where('id', '=', tokenId)
          .execute()
      }),
  }
}

function tokenOf(row: TokenRow): Token {
  return {
    id: row.id,
    name: row.name,
    role: row.role as Role,
    rights: JSON.parse(row.rights) as Right[],
    madeBy: { id: row.actor_id, role: row.actor_role as Role },
    madeAt: row.made_at,
    endsAt: row.ends_at,
    revokedAt: row.revoked_at,
    lastUsedAt: row.last_used_at,
  }
}

function entryOf(before: Token | null, after: Token, version: number) {
  return {
    subject: 'token' as const,
    feederId: null,
    subjectId: after.id,
    version,
    before: before && kept(before),
    after: kept(after),
  }
}

function kept({ name, role, rights, endsAt, revokedAt }: Token) {
  return { name, role, rights, endsAt, revokedAt }
}
