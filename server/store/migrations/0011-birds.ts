import type { Kysely } from 'kysely'
import type { HistoryEntry } from '../../services/ports.ts'
import { type ChainHead, hashOfEntry, NO_HASH } from '../history-chain.ts'

/**
 * The record of birds, and what else an item on a pole may say. Nests and incidents, which until now
 * stood in the files of the feeders alone, move into it as they stand in each newest version.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  for (const [column, type] of ITEM_COLUMNS) {
    await db.schema.alterTable('protections').addColumn(column, type).execute()
  }
  await makeTable(db, 'nests', 'of a feeder', ['species'], ['pole'])
  await makeTable(db, 'incidents', 'of a feeder', ['species', 'found_on'], ['pole'])
  await makeTable(db, 'pole_tops', 'of a feeder')
  await makeTable(db, 'programmes', 'of a feeder', ['name', 'note', 'state'])
  await makeTable(db, 'bird_settings', 'of the utility')
  await takeOver(db as Kysely<TablesThen>)
}

const ITEM_COLUMNS = [
  ['measure', 'text'],
  ['part_ids', 'text'],
  ['dimension_m', 'double precision'],
  ['material_class', 'text'],
  ['installed_by', 'text'],
  ['cost_usd', 'double precision'],
  ['inspect_every_months', 'integer'],
  ['condition', 'text'],
  ['inspected_on', 'text'],
] as const

async function makeTable(
  db: Kysely<unknown>,
  name: string,
  whose: 'of a feeder' | 'of the utility',
  texts: readonly string[] = [],
  textsOrNone: readonly string[] = [],
): Promise<void> {
  let table = db.schema
    .createTable(name)
    .addColumn('feeder_id', 'text', (column) =>
      whose === 'of a feeder' ? column.notNull().references('feeders.id') : column.notNull(),
    )
    .addColumn('id', 'text', (column) => column.notNull())
    .addColumn('version', 'integer', (column) => column.notNull())
  for (const text of texts) table = table.addColumn(text, 'text', (column) => column.notNull())
  for (const text of textsOrNone) table = table.addColumn(text, 'text')
  await table
    .addColumn('body', 'text', (column) => column.notNull())
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('changed_at', 'text', (column) => column.notNull())
    .addColumn('deleted_at', 'text')
    .addPrimaryKeyConstraint(`${name}_key`, ['feeder_id', 'id'])
    .execute()
}

/** The tables at the time of this step, as far as it touches them. */
interface TablesThen {
  feeders: { id: string; newest_version: number }
  feeder_versions: FeederVersion & { version: number; feeder: string }
  nests: BodyRow & { pole: string | null; species: string }
  incidents: BodyRow & { pole: string | null; species: string; found_on: string }
  history: EntryRow
}

interface FeederVersion {
  feeder_id: string
  taken_in_at: string
  actor_id: string
  actor_role: string
}

interface BodyRow {
  feeder_id: string
  id: string
  version: number
  body: string
  actor_id: string
  actor_role: string
  changed_at: string
  deleted_at: string | null
}

interface EntryRow {
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

interface Thing {
  readonly id: string
  readonly pole?: string
  readonly species: string
}
type FoundThing = Thing & { readonly foundOn: string }

async function takeOver(db: Kysely<TablesThen>): Promise<void> {
  const feeders = await db.selectFrom('feeders').selectAll().orderBy('id').execute()
  let head = await headOf(db)
  for (const { id, newest_version } of feeders) {
    const version = await db
      .selectFrom('feeder_versions')
      .selectAll()
      .where('feeder_id', '=', id)
      .where('version', '=', newest_version)
      .executeTakeFirst()
    if (version) head = await takeOverFrom(db, version, head)
  }
}

async function headOf(db: Kysely<TablesThen>): Promise<ChainHead> {
  const last = await db
    .selectFrom('history')
    .select(['seq', 'hash'])
    .orderBy('seq', 'desc')
    .limit(1)
    .executeTakeFirst()
  return last ?? { seq: 0, hash: NO_HASH }
}

async function takeOverFrom(
  db: Kysely<TablesThen>,
  version: TablesThen['feeder_versions'],
  before: ChainHead,
): Promise<ChainHead> {
  const { nests = [], incidents = [] } = JSON.parse(version.feeder) as {
    readonly nests?: readonly Thing[]
    readonly incidents?: readonly FoundThing[]
  }
  let head = before
  for (const { id, pole, species, ...body } of onceEach(nests)) {
    const row = { ...rowOf(version, id, { ...body, seasons: [], note: '' }), species }
    await db
      .insertInto('nests')
      .values({ ...row, pole: pole ?? null })
      .execute()
    const said = { ...body, seasons: [], note: '', species, ...(pole !== undefined && { pole }) }
    head = await remember(db, version, head, 'nest', { id, ...said })
  }
  for (const { id, pole, species, foundOn, ...body } of onceEach(incidents)) {
    const row = { ...rowOf(version, id, body), species, found_on: foundOn }
    await db
      .insertInto('incidents')
      .values({ ...row, pole: pole ?? null })
      .execute()
    const said = { ...body, species, foundOn, ...(pole !== undefined && { pole }) }
    head = await remember(db, version, head, 'incident', { id, ...said })
  }
  return head
}

function onceEach<Kind extends Thing>(things: readonly Kind[]): Kind[] {
  return [...new Map(things.map((thing) => [thing.id, thing])).values()]
}

function rowOf(
  { feeder_id, actor_id, actor_role, taken_in_at }: FeederVersion,
  id: string,
  body: object,
): BodyRow {
  const by = { actor_id, actor_role, changed_at: taken_in_at }
  return { feeder_id, id, version: 1, body: JSON.stringify(body), ...by, deleted_at: null }
}

/** By whom and when the version was taken in that it comes from. */
async function remember(
  db: Kysely<TablesThen>,
  { feeder_id, actor_id, actor_role, taken_in_at }: FeederVersion,
  head: ChainHead,
  subject: 'nest' | 'incident',
  said: { readonly id: string },
): Promise<ChainHead> {
  const role = actor_role as HistoryEntry['actorRole']
  const after = {
    ...said,
    version: 1,
    changedBy: { id: actor_id, role },
    changedAt: taken_in_at,
    deletedAt: null,
  }
  const entry = {
    seq: head.seq + 1,
    subject,
    feederId: feeder_id,
    subjectId: said.id,
    version: 1,
    what: 'added' as const,
    at: taken_in_at,
    deviceAt: null,
    actorId: actor_id,
    actorRole: role,
    reason: null,
    before: null,
    after,
    previousHash: head.hash,
  }
  const hash = hashOfEntry(entry)
  await db
    .insertInto('history')
    .values({
      seq: entry.seq,
      subject,
      feeder_id,
      subject_id: said.id,
      version: 1,
      what: entry.what,
      at: taken_in_at,
      device_at: null,
      actor_id,
      actor_role,
      reason: null,
      before: null,
      after: JSON.stringify(after),
      previous_hash: head.hash,
      hash,
    })
    .execute()
  return { seq: entry.seq, hash }
}
