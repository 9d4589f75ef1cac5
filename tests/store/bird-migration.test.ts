import { describe, expect, it } from 'vitest'
import { addUnknownIncidents } from '../../server/store/incident-repository.ts'
import { addUnknownNests } from '../../server/store/nest-repository.ts'
import { openStore } from '../../server/store/open-store.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { nestingFeeder, OSPREY_FOUND, OSPREY_NEST } from '../support/nesting-feeder.ts'
import { makeDatabaseOf, STEPS, withDatabaseOf } from './database-of-version.ts'
import { temporaryPlaces } from './temporary-places.ts'
import { stampAt } from './temporary-store.ts'

const { freshPlace } = temporaryPlaces()
const EARLIER = STEPS.filter((step) => step < '0011')

describe.each(EARLIER)('a database that ended with %s', (step) => {
  it('brings nests and finds of its feeders into the record, once and with a whole chain', async () => {
    const place = await freshPlace('old')
    await makeDatabaseOf(step, place)
    const feeder = JSON.stringify(nestingFeeder())
    await withDatabaseOf(place, ({ plain }) =>
      plain.updateTable('feeder_versions').set({ feeder }).execute(),
    )
    const store = await openStore(place)
    expect(await store.nests.list('small')).toMatchObject([
      { id: 'N1', ...OSPREY_NEST, seasons: [], version: 1, changedBy: { id: 'robin' } },
    ])
    expect(await store.incidents.list('small')).toMatchObject([{ id: 'I1', ...OSPREY_FOUND }])
    await store.nests.delete('small', 'N1', 1, stampAt(1))
    await addUnknownNests(store.database, nestingFeeder(), stampAt(2))
    await addUnknownIncidents(store.database, nestingFeeder(), stampAt(2))
    expect(await store.nests.list('small')).toEqual([])
    expect(await store.incidents.list('small')).toHaveLength(1)
    await store.close()
    const { chain, rows } = await verifyRecord(place)
    expect(chain.fault).toBeNull()
    expect(rows.filter((fault) => /nest|incident/.test(fault))).toEqual([])
  })
})
