import type { Actor, Study, StudyEnd, StudyStore } from '../services/ports.ts'
import type { Database } from './database.ts'
import type { StudyRow } from './tables.ts'

export function studyRepository(db: Database): StudyStore {
  return {
    find: async (studyId) => {
      const row = await db.query
        .selectFrom('studies')
        .selectAll()
        .where('id', '=', studyId)
        .executeTakeFirst()
      return row ? recordOfRow(row) : null
    },
    add: async (study) => {
      await db.transaction((transaction) =>
        transaction.insertInto('studies').values(rowOf(study)).execute(),
      )
    },
    setRunning: async (studyId) => {
      await db.transaction((transaction) =>
        transaction
          .updateTable('studies')
          .set({ state: 'running' })
          .where('id', '=', studyId)
          .execute(),
      )
    },
    end: async (studyId, end) => {
      await db.transaction((transaction) =>
        transaction.updateTable('studies').set(endColumns(end)).where('id', '=', studyId).execute(),
      )
    },
    unfinished: async () => {
      const rows = await db.query
        .selectFrom('studies')
        .select('id')
        .where('state', 'in', ['queued', 'running'])
        .execute()
      return rows.map(({ id }) => id)
    },
  }
}

function rowOf(study: Study): StudyRow {
  return {
    id: study.id,
    feeder_id: study.feederId,
    feeder_version: study.feederVersion,
    request: JSON.stringify(study.request),
    actor_id: study.startedBy.id,
    actor_role: study.startedBy.role,
    started_at: study.startedAt,
    ...endColumns(study),
  }
}

function endColumns({ state, done, total, phase, endedAt, result, problem }: StudyEnd) {
  return {
    state,
    done,
    total,
    phase,
    ended_at: endedAt,
    result: result ? JSON.stringify(result) : null,
    problem: problem ? JSON.stringify(problem) : null,
  }
}

function recordOfRow(row: StudyRow): Study {
  return {
    id: row.id,
    feederId: row.feeder_id,
    feederVersion: row.feeder_version,
    request: JSON.parse(row.request) as Study['request'],
    state: row.state as Study['state'],
    done: row.done,
    total: row.total,
    phase: row.phase,
    startedBy: { id: row.actor_id, role: row.actor_role as Actor['role'] },
    startedAt: row.started_at,
    endedAt: row.ended_at,
    ...(row.result === null ? {} : { result: JSON.parse(row.result) as Study['result'] }),
    ...(row.problem === null ? {} : { problem: JSON.parse(row.problem) as Study['problem'] }),
  }
}
