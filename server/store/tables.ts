import type { Selectable } from 'kysely'

/** Rows as the database keeps them: JSON and moments (ISO 8601, UTC) as text. */
export interface Tables {
  feeders: FeederTable
  feeder_versions: FeederVersionTable
  land_layers: LandLayerTable
  studies: StudyTable
  proposals: ProposalTable
  protections: ProtectionTable
  history: HistoryTable
}

interface FeederTable {
  id: string
  origin: string
  newest_version: number
}

interface FeederVersionTable {
  feeder_id: string
  version: number
  name: string
  nominal_kv: number
  place: string | null
  poles: number
  customers: number
  coordinates: string
  feeder: string
  taken_in_at: string
  actor_id: string
  actor_role: string
}

interface LandLayerTable {
  place_id: string
  name: string
  collection: string
}

interface StudyTable {
  id: string
  feeder_id: string
  feeder_version: number
  request: string
  state: string
  done: number
  total: number
  phase: string
  result: string | null
  problem: string | null
  actor_id: string
  actor_role: string
  started_at: string
  ended_at: string | null
}

interface ProposalTable {
  id: string
  feeder_id: string
  feeder_version: number
  version: number
  name: string
  note: string
  request: string
  proposal: string
  actor_id: string
  actor_role: string
  saved_at: string
  deleted_at: string | null
}

interface ProtectionTable {
  feeder_id: string
  id: string
  version: number
  pole: string
  kind: string
  what: string
  state: string
  state_date: string
  note: string | null
  actor_id: string
  actor_role: string
  changed_at: string
  deleted_at: string | null
}

interface HistoryTable {
  subject: string
  feeder_id: string
  subject_id: string
  version: number
  at: string
  actor_id: string
  actor_role: string
  before: string | null
  after: string
}

export type StudyRow = Selectable<StudyTable>
export type ProposalRow = Selectable<ProposalTable>
export type ProtectionRow = Selectable<ProtectionTable>
