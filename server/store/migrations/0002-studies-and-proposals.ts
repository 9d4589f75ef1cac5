import type { Kysely } from 'kysely'

const VERSION_COLUMNS = ['feeder_id', 'version'] as const

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('studies')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('feeder_id', 'text', (column) => column.notNull())
    .addColumn('feeder_version', 'integer', (column) => column.notNull())
    .addColumn('request', 'text', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('done', 'integer', (column) => column.notNull())
    .addColumn('total', 'integer', (column) => column.notNull())
    .addColumn('phase', 'text', (column) => column.notNull())
    .addColumn('result', 'text')
    .addColumn('problem', 'text')
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('started_at', 'text', (column) => column.notNull())
    .addColumn('ended_at', 'text')
    .addForeignKeyConstraint('studies_feeder', ['feeder_id', 'feeder_version'], 'feeder_versions', [
      ...VERSION_COLUMNS,
    ])
    .execute()
  await db.schema.createIndex('studies_state').on('studies').column('state').execute()
  await db.schema
    .createTable('proposals')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('feeder_id', 'text', (column) => column.notNull())
    .addColumn('feeder_version', 'integer', (column) => column.notNull())
    .addColumn('version', 'integer', (column) => column.notNull())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('note', 'text', (column) => column.notNull())
    .addColumn('request', 'text', (column) => column.notNull())
    .addColumn('proposal', 'text', (column) => column.notNull())
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addColumn('saved_at', 'text', (column) => column.notNull())
    .addColumn('deleted_at', 'text')
    .addForeignKeyConstraint(
      'proposals_feeder',
      ['feeder_id', 'feeder_version'],
      'feeder_versions',
      [...VERSION_COLUMNS],
    )
    .execute()
  await db.schema
    .createIndex('proposals_feeder_saved')
    .on('proposals')
    .columns(['feeder_id', 'saved_at'])
    .execute()
}
