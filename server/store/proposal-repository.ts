import type { Actor, ProposalStore, SavedProposal } from '../services/ports.ts'
import type { Database } from './database.ts'
import type { ProposalRow } from './tables.ts'
import { type RecordKind, versionedRecords } from './versioned-record.ts'

export const PROPOSAL_KIND: RecordKind<ProposalRow, SavedProposal> = {
  subject: 'proposal',
  table: 'proposals',
  recordOf: recordOfRow,
  // Who saved it stays; who changed it is in the history.
  touched: () => ({}),
}

export function proposalRepository(db: Database): ProposalStore {
  const records = versionedRecords(db, PROPOSAL_KIND)
  return {
    list: async (feederId) => (await records.list(feederId)).sort(newestFirst),
    find: (id) => records.find({ id }),
    add: (proposal, stamp) => records.add(rowOf(proposal), stamp),
    change: (id, version, { name, note }, stamp) =>
      records.change({ id }, version, { name, note }, stamp),
    delete: (id, version, stamp) => records.delete({ id }, version, stamp),
    restore: (id, version, stamp) => records.restore({ id }, version, stamp),
    listDeleted: (feederId) => records.listDeleted(feederId, ({ name }) => name),
    purge: (feederId, id, version, reason, stamp) =>
      records.purge({ id, feeder_id: feederId }, version, reason, stamp),
  }
}

function newestFirst(left: SavedProposal, right: SavedProposal): number {
  if (left.savedAt === right.savedAt) return 0
  return left.savedAt < right.savedAt ? 1 : -1
}

function rowOf(proposal: SavedProposal): ProposalRow {
  return {
    id: proposal.id,
    feeder_id: proposal.feederId,
    feeder_version: proposal.feederVersion,
    version: proposal.version,
    name: proposal.name,
    note: proposal.note,
    request: JSON.stringify(proposal.request),
    proposal: JSON.stringify(proposal.proposal),
    actor_id: proposal.savedBy.id,
    actor_role: proposal.savedBy.role,
    saved_at: proposal.savedAt,
    deleted_at: proposal.deletedAt,
  }
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
