import type { ColumnType, Selectable } from 'kysely'

/** Rows as the database keeps them: JSON and moments (ISO 8601, UTC) as text. */
export interface Tables {
  feeders: FeederTable
  feeder_versions: FeederVersionTable
  land_layers: LandLayerTable
  work: WorkTable
  proposals: ProposalTable
  protections: ProtectionTable
  nests: NestTable
  incidents: IncidentTable
  pole_tops: PoleTopTable
  programmes: ProgrammeTable
  bird_settings: BirdSettingsTable
  jobs: JobTable
  job_entries: JobEntryTable
  as_left: AsLeftTable
  step_sequences: StepSequenceTable
  history: HistoryTable
  attachments: AttachmentTable
  request_keys: RequestKeyTable
  backup_turns: BackupTurnTable
  people: PersonTable
  invitations: InvitationTable
  tokens: TokenTable
  sign_in_tries: TryTable
  auth_users: AuthUserTable
  auth_sessions: AuthSessionTable
  auth_accounts: AuthAccountTable
  auth_second_factors: AuthSecondFactorTable
  auth_passkeys: AuthPasskeyTable
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

interface WorkTable {
  id: string
  kind: string
  feeder_id: string | null
  feeder_version: number | null
  part_of: string | null
  /** What was asked for. */
  payload: string
  /** Bulk that only the worker needs; emptied at the end. */
  material: string | null
  state: string
  done: number
  total: number
  phase: string
  /** Grows with each worker that takes it: what an earlier one says counts no more. */
  attempt: number
  /** How often the machinery broke under it. */
  breakdowns: number
  holder: string | null
  /** Grows as long as the holder lives. */
  beat: number
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
  measure: string | null
  /** JSON. */
  part_ids: string | null
  dimension_m: number | null
  material_class: string | null
  installed_by: string | null
  cost_usd: number | null
  inspect_every_months: number | null
  condition: string | null
  inspected_on: string | null
  actor_id: string
  actor_role: string
  changed_at: string
  deleted_at: string | null
}

/** Columns of the records that keep most of what they say as JSON in `body`. */
interface BodyTable {
  feeder_id: string
  id: string
  version: number
  body: string
  actor_id: string
  actor_role: string
  changed_at: string
  deleted_at: string | null
}

interface NestTable extends BodyTable {
  pole: string | null
  species: string
}

interface IncidentTable extends BodyTable {
  pole: string | null
  species: string
  found_on: string
}

/** The id is that of the pole. */
type PoleTopTable = BodyTable

interface ProgrammeTable extends BodyTable {
  name: string
  note: string
  state: string
}

/** One row, of no feeder. */
type BirdSettingsTable = BodyTable

interface JobTable extends BodyTable {
  title: string
  kind: string
  state: string
  due_on: string | null
  /** JSON; never changed. */
  plan: string
}

/** Only added to; triggers refuse all else. */
interface JobEntryTable {
  job_id: string
  /** From 1, in the order in which they were kept. */
  position: number
  /** Made on the device. */
  id: string
  entry: string
  device_at: string
  actor_id: string
  actor_role: string
  kept_at: string
}

/** The id is that of the job. */
type AsLeftTable = BodyTable

/** Of no feeder. */
type StepSequenceTable = BodyTable

/** An empty `feeder_id` stands for none. */
interface HistoryTable {
  seq: number
  subject: string
  feeder_id: string
  subject_id: string
  version: number
  what: string
  at: string
  device_at: string | null
  actor_id: string
  actor_role: string
  reason: string | null
  before: string | null
  after: string | null
  previous_hash: string
  hash: string
}

interface PersonTable {
  id: string
  name: string
  email: string
  roles: string
  state: string
  is_demo: number
  version: number
  actor_id: string
  actor_role: string
  changed_at: string
  last_sign_in_at: string | null
}

interface InvitationTable {
  secret_hash: string
  person_id: string
  ends_at: string
}

interface TokenTable {
  id: string
  secret_hash: string
  name: string
  role: string
  rights: string
  version: number
  actor_id: string
  actor_role: string
  made_at: string
  ends_at: string
  revoked_at: string | null
  last_used_at: string | null
}

interface TryTable {
  key: string
  failures: number
  open_at: string
  forget_at: string
}

/** Written by the library of sign-in too; PostgreSQL has types of its own for moments and flags. */
export type AuthMoment = ColumnType<string | Date, string, string>
type AuthFlag = ColumnType<number | boolean, number, number>

interface AuthUserTable {
  id: string
  name: string
  email: string
  emailVerified: AuthFlag
  createdAt: AuthMoment
  updatedAt: AuthMoment
  twoFactorEnabled: AuthFlag | null
}

interface AuthSessionTable {
  id: string
  userId: string
  expiresAt: AuthMoment
  token: string
  createdAt: AuthMoment
  updatedAt: AuthMoment
  userAgent: string | null
}

interface AuthAccountTable {
  id: string
  userId: string
  accountId: string
  providerId: string
  password: string | null
  createdAt: AuthMoment
  updatedAt: AuthMoment
}

interface AuthSecondFactorTable {
  id: string
  userId: string
  verified: AuthFlag | null
}

interface AuthPasskeyTable {
  id: string
  userId: string
}

export type PersonRow = Selectable<PersonTable>
export type TokenRow = Selectable<TokenTable>
interface AttachmentTable {
  id: string
  feeder_id: string
  version: number
  attached_to: string
  attached_to_id: string
  file_name: string
  note: string
  media_type: string
  size_bytes: number
  sha256: string
  actor_id: string
  actor_role: string
  changed_at: string
  deleted_at: string | null
}

interface BackupTurnTable {
  name: string
  taken_at: string
}

interface RequestKeyTable {
  asker_id: string
  key: string
  fingerprint: string
  answer: string
  kept_at: string
}

export type AttachmentRow = Selectable<AttachmentTable>
export type WorkRow = Selectable<WorkTable>
export type ProposalRow = Selectable<ProposalTable>
export type ProtectionRow = Selectable<ProtectionTable>
export type BodyRow = Selectable<BodyTable>
export type NestRow = Selectable<NestTable>
export type IncidentRow = Selectable<IncidentTable>
export type ProgrammeRow = Selectable<ProgrammeTable>
export type JobRow = Selectable<JobTable>
export type JobEntryRow = Selectable<JobEntryTable>
export type HistoryRow = Selectable<HistoryTable>
