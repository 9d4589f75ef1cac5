import { createHash } from 'node:crypto'
import type { Row } from '../../server/store/archive/table-form.ts'
import { hashOfEntry, NO_HASH } from '../../server/store/history-chain.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { lookPlan, stepDone } from '../support/small-job.ts'

/** Rows of a table as some versions of the program wrote them. */
interface RowsOfTable {
  readonly table: string
  readonly since: string
  /** First step that has the table in another form, or no more. */
  readonly until?: string
  readonly rows: readonly Row[]
}

const AT = '2026-05-01T08:00:00.000Z'
const BY = { actor_id: 'robin', actor_role: 'coordinator' }

/** Characters that a careless format would lose: ends of lines, quotes, signs beyond the plane. */
export const TRICKY = 'Über "the" creek\n\u2028next\r, 50 Ω \u{1F985} \\n'
export const ATTACHED = Buffer.from('%PDF-1.7 invented for this test\n')
export const ATTACHED_SHA256 = createHash('sha256').update(ATTACHED).digest('hex')

const feeder = smallFeeder({ name: TRICKY })
const proposal = { id: 'p1', name: TRICKY }

/** Columns of their own beside those that all of them have. */
const BIRD_COLUMNS: Readonly<Record<string, Row>> = {
  nests: { pole: 'P2', species: TRICKY },
  incidents: { pole: null, species: TRICKY, found_on: '2026-03-01' },
  programmes: { name: TRICKY, note: '', state: 'draft' },
}

const ROWS: readonly RowsOfTable[] = [
  {
    table: 'feeders',
    since: '0001',
    rows: [{ id: 'small', origin: 'added', newest_version: 1 }],
  },
  {
    table: 'feeder_versions',
    since: '0001',
    rows: [
      {
        feeder_id: 'small',
        version: 1,
        name: TRICKY,
        nominal_kv: 12.47,
        place: null,
        poles: 5,
        customers: 0,
        coordinates: 'invented',
        feeder: JSON.stringify(feeder),
        taken_in_at: AT,
        ...BY,
      },
    ],
  },
  {
    table: 'land_layers',
    since: '0001',
    rows: ['roads', 'Creeks', 'área'].map((name) => ({
      place_id: 'valley',
      name,
      collection: '{"type":"FeatureCollection","features":[]}',
    })),
  },
  {
    table: 'studies',
    since: '0002',
    until: '0007',
    rows: ['done', 'running'].map((state) => ({
      id: `study-${state}`,
      feeder_id: 'small',
      feeder_version: 1,
      request: '{"banks":1}',
      state,
      done: 3,
      total: 3,
      phase: 'Placing',
      result: state === 'done' ? '{"proposals":[]}' : null,
      problem: null,
      ...BY,
      started_at: AT,
      ended_at: state === 'done' ? AT : null,
    })),
  },
  {
    table: 'proposals',
    since: '0002',
    rows: [
      {
        id: 'p1',
        feeder_id: 'small',
        feeder_version: 1,
        version: 1,
        name: TRICKY,
        note: '',
        request: '{}',
        proposal: '{}',
        ...BY,
        saved_at: AT,
        deleted_at: null,
      },
    ],
  },
  {
    table: 'protections',
    since: '0003',
    rows: [
      {
        feeder_id: 'small',
        id: 'cover-1',
        version: 1,
        pole: 'P2',
        kind: 'cover',
        what: TRICKY,
        state: 'on',
        state_date: '2026-05-01',
        note: null,
        ...BY,
        changed_at: AT,
        deleted_at: null,
      },
    ],
  },
  {
    table: 'history',
    since: '0003',
    until: '0004',
    rows: [
      {
        subject: 'proposal',
        feeder_id: 'small',
        subject_id: 'p1',
        version: 1,
        at: AT,
        ...BY,
        before: null,
        after: JSON.stringify(proposal),
      },
    ],
  },
  { table: 'history', since: '0004', rows: [chainedRow()] },
  {
    table: 'people',
    since: '0005',
    rows: [
      {
        id: 'robin',
        name: 'Robin',
        email: 'robin@crossarm.example',
        roles: '["coordinator"]',
        state: 'active',
        is_demo: 0,
        version: 1,
        ...BY,
        changed_at: AT,
        last_sign_in_at: null,
      },
    ],
  },
  {
    table: 'auth_users',
    since: '0005',
    rows: [false, true].map((isVerified) => ({
      id: isVerified ? 'robin' : 'sam',
      name: TRICKY,
      email: isVerified ? 'robin@crossarm.example' : 'sam@crossarm.example',
      emailVerified: isVerified,
      image: null,
      createdAt: AT,
      updatedAt: '2026-05-01T08:00:00.123Z',
      twoFactorEnabled: null,
    })),
  },
  {
    table: 'auth_sessions',
    since: '0005',
    rows: [
      {
        id: 'session',
        userId: 'robin',
        expiresAt: '2027-05-01T08:00:00.000Z',
        token: 'secret of a session',
        createdAt: AT,
        updatedAt: AT,
        ipAddress: null,
        userAgent: null,
      },
    ],
  },
  {
    table: 'attachments',
    since: '0006',
    rows: [
      {
        id: 'report',
        feeder_id: 'small',
        version: 1,
        attached_to: 'pole',
        attached_to_id: 'P2',
        file_name: 'report.pdf',
        note: '',
        media_type: 'application/pdf',
        size_bytes: ATTACHED.length,
        sha256: ATTACHED_SHA256,
        ...BY,
        changed_at: AT,
        deleted_at: null,
      },
    ],
  },
  {
    table: 'work',
    since: '0007',
    // The first names the second, which stands behind it.
    rows: [
      { id: 'a-part', part_of: 'whole' },
      { id: 'whole', part_of: null },
    ].map((ids) => ({
      ...ids,
      kind: 'siting',
      feeder_id: 'small',
      feeder_version: 1,
      payload: '{"banks":1}',
      material: null,
      state: 'done',
      done: 3,
      total: 3,
      phase: 'Placing',
      attempt: 1,
      breakdowns: 0,
      holder: null,
      beat: 0,
      result: '{"proposals":[]}',
      problem: null,
      ...BY,
      started_at: AT,
      ended_at: AT,
    })),
  },
  ...['nests', 'incidents', 'pole_tops', 'programmes', 'bird_settings'].map((table) => ({
    table,
    since: '0011',
    rows: [
      {
        feeder_id: table === 'bird_settings' ? '' : 'small',
        id: 'one',
        version: 1,
        body: JSON.stringify({ note: TRICKY }),
        ...BY,
        changed_at: AT,
        deleted_at: null,
        ...BIRD_COLUMNS[table],
      },
    ],
  })),
  {
    table: 'jobs',
    since: '0012',
    rows: [
      {
        id: 'job',
        feeder_id: 'small',
        version: 1,
        title: TRICKY,
        kind: 'inspection',
        state: 'in the field',
        due_on: null,
        plan: JSON.stringify(lookPlan()),
        body: JSON.stringify({ note: TRICKY, poles: ['P2', 'P3'] }),
        ...BY,
        changed_at: AT,
        deleted_at: null,
      },
    ],
  },
  {
    table: 'job_entries',
    since: '0012',
    rows: [1, 2].map((position) => ({
      job_id: 'job',
      position,
      id: `entry-${position}`,
      entry: JSON.stringify({ ...stepDone(`entry-${position}`, 'P2', 'look'), text: TRICKY }),
      device_at: AT,
      ...BY,
      kept_at: AT,
    })),
  },
  ...['as_left', 'step_sequences'].map((table) => ({
    table,
    since: '0012',
    rows: [
      {
        feeder_id: table === 'as_left' ? 'small' : '',
        id: 'job',
        version: 1,
        body: JSON.stringify({ remarks: TRICKY }),
        ...BY,
        changed_at: AT,
        deleted_at: null,
      },
    ],
  })),
  {
    table: 'request_keys',
    since: '0008',
    rows: [{ asker_id: 'robin', key: 'k', fingerprint: 'f', answer: '{}', kept_at: AT }],
  },
]

/** By table, what a database that has taken the steps up to `step` may hold. */
export function rowsOfVersion(step: string): ReadonlyMap<string, readonly Row[]> {
  const number = step.slice(0, 4)
  const there = ROWS.filter(
    ({ since, until }) => since <= number && (until === undefined || number < until),
  )
  return new Map(there.map(({ table, rows }) => [table, rows]))
}

function chainedRow(): Row {
  const entry = {
    seq: 1,
    subject: 'proposal',
    feederId: 'small',
    subjectId: 'p1',
    version: 1,
    what: 'added',
    at: AT,
    deviceAt: null,
    actorId: BY.actor_id,
    actorRole: 'coordinator',
    reason: null,
    before: null,
    after: proposal,
    previousHash: NO_HASH,
  } as const
  return {
    seq: 1,
    subject: entry.subject,
    feeder_id: entry.feederId,
    subject_id: entry.subjectId,
    version: 1,
    what: entry.what,
    at: AT,
    device_at: null,
    ...BY,
    reason: null,
    before: null,
    after: JSON.stringify(proposal),
    previous_hash: NO_HASH,
    hash: hashOfEntry(entry),
  }
}
