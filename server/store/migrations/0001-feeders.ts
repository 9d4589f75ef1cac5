import type { Kysely } from 'kysely'

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('feeders')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('origin', 'text', (column) => column.notNull())
    .addColumn('newest_version', 'integer', (column) => column.notNull())
    .execute()
  await db.schema
    .createTable('feeder_versions')
    .addColumn('feeder_id', 'text', (column) => column.notNull().references('feeders.id'))
    .addColumn('version', 'integer', (column) => column.notNull())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('nominal_kv', 'double precision', (column) => column.notNull())
    .addColumn('place', 'text')
    .addColumn('poles', 'integer', (column) => column.notNull())
    .addColumn('customers', 'integer', (column) => column.notNull())
    .addColumn('coordinates', 'text', (column) => column.notNull())
    .addColumn('feeder', 'text', (column) => column.notNull())
    .addColumn('taken_in_at', 'text', (column) => column.notNull())
    .addColumn('actor_id', 'text', (column) => column.notNull())
    .addColumn('actor_role', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint('feeder_versions_key', ['feeder_id', 'version'])
    .execute()
  await db.schema
    .createTable('land_layers')
    .addColumn('place_id', 'text', (column) => column.notNull())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('collection', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint('land_layers_key', ['place_id', 'name'])
    .execute()
}
