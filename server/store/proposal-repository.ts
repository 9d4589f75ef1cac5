import type { Transaction } from 'kysely'
import type { Actor, ProposalStore, SavedProposal, Stamp, Written } from '../services/ports.ts'
import type { Database } from './database.ts'
import { appendHistory } from './history.ts'
import type { ProposalRow, Tables } from './tables.ts'

export function proposalRepository(db: Database): ProposalStore {
  return {
    list: (feederId) => listKept(db, feederId),
    find: async (proposalId) => {
      const row = await findRow(db, proposalId)
      return row ? recordOfRow(row) : null
    },
    add: (proposal, stamp) => db.transaction((transaction) => insert(transaction, proposal, stamp)),
    delete: (proposalId, stamp) =>
      write(db, proposalId, stamp, (deletedAt) => (deletedAt === null ? stamp.at : undefined)),
    restore: (proposalId, stamp) =>
      write(db, proposalId, stamp, (deletedAt) => (deletedAt === null ? undefined : null)),
  }
}

async function listKept(db: Database, feederId: string): Promise<SavedProposal[]> {
  const rows = await db.query
    .selectFrom('proposals')
    .selectAll()
    .where('feeder_id', '=', feederId)
    .where('deleted_at', 'is', null)
    .orderBy('saved_at', 'desc')
    .orderBy('id')
    .execute()
  return rows.map(recordOfRow)
}

function findRow(db: Database, proposalId: string) {
  return db.query
    .selectFrom('proposals')
    .selectAll()
    .where('id', '=', proposalId)
    .executeTakeFirst()
}

async function insert(
  transaction: Transaction<Tables>,
  proposal: SavedProposal,
  stamp: Stamp,
): Promise<void> {
  await transaction
    .insertInto('proposals')
    .values({
      id: proposal.id,
      feeder_id: proposal.feederId,
      feeder_version: proposal.feederVersion,
      version: 1,
      name: proposal.name,
      note: proposal.note,
      request: JSON.stringify(proposal.request),
      proposal: JSON.stringify(proposal.proposal),
      actor_id: proposal.savedBy.id,
      actor_role: proposal.savedBy.role,
      saved_at: proposal.savedAt,
      deleted_at: proposal.deletedAt,
    })
    .execute()
  await remember(transaction, 1, null, proposal, stamp)
}

/** `next` gives the time of deletion as it is to be, or undefined where that changes nothing. */
function write(
  db: Database,
  proposalId: string,
  stamp: Stamp,
  next: (deletedAt: string | null) => string | null | undefined,
): Promise<Written<SavedProposal>> {
  return db.transaction(async (transaction) => {
    const row = await findRow(db, proposalId)
    if (!row) return { status: 'missing' }
    const current = recordOfRow(row)
    const deletedAt = next(row.deleted_at)
    if (deletedAt === undefined) return { status: 'wrong-state', current }
    const version = row.version + 1
    await transaction
      .updateTable('proposals')
      .set({ version, deleted_at: deletedAt })
      .where('id', '=', proposalId)
      .execute()
    const record = { ...current, version, deletedAt }
    await remember(transaction, version, current, record, stamp)
    return { status: 'written', record }
  })
}

function remember(
  transaction: Transaction<Tables>,
  version: number,
  before: SavedProposal | null,
  after: SavedProposal,
  stamp: Stamp,
): Promise<void> {
  const { feederId, id } = after
  return appendHistory(
    transaction,
    { subject: 'proposal', feederId, subjectId: id, version, before, after },
    stamp,
  )
}

function recordOfRow(row: ProposalRow): SavedProposal {
  return {
    id: row.id,
    feederId: row.feeder_id,
    feederVersion: row.feeder_version,
    name: row.name,
    note: row.note,
    request: JSON.parse(row.request) as SavedProposal['request'],
    proposal: JSON.parse(row.proposal) as SavedProposal['proposal'],
    version: row.version,
    savedBy: { id: row.actor_id, role: row.actor_role as Actor['role'] },
    savedAt: row.saved_at,
    deletedAt: row.deleted_at,
  }
}
