import { beforeEach, describe, expect, it } from 'vitest'
import type { NestBody } from '#contract/nests.ts'
import { KeepProgrammeBody } from '#contract/programmes.ts'
import { ProtectionBody } from '#contract/protections.ts'
import { BirdSettings } from '#domain/avian/bird-settings.ts'
import { PoleTopChoice } from '#domain/avian/pole-top/pole-top-choice.ts'
import type { Written } from '../../server/services/ports.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { nestingFeeder, OSPREY_FOUND, OSPREY_NEST } from '../support/nesting-feeder.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { stampAt, temporaryStore } from './temporary-store.ts'

const temporary = temporaryStore()
beforeEach(async () => {
  await temporary.store.feeders.add(nestingFeeder(), 'added', stampAt(0))
})

const NEST: NestBody = {
  ...OSPREY_NEST,
  seasons: [{ year: 2026, status: 'in use', young: 2 }],
  note: 'Ω',
}
const CHOICE = PoleTopChoice.parse({ pole: 'P3', framing: 'flat arm', note: 'measured' })

function recordOf<Kept>(written: Written<Kept>): Kept {
  if (written.status === 'written') return written.record
  throw new Error(`Expected a write, got ${written.status}.`)
}

describe('nests and finds of a feeder’s file', () => {
  it('come into the record with the feeder, each with its history', async () => {
    const { nests, incidents, history } = temporary.store
    expect(await nests.list('small')).toEqual([
      {
        ...OSPREY_NEST,
        id: 'N1',
        seasons: [],
        note: '',
        version: 1,
        changedBy: stampAt(0).actor,
        changedAt: stampAt(0).at,
        deletedAt: null,
      },
    ])
    expect(await incidents.list('small')).toMatchObject([{ ...OSPREY_FOUND, id: 'I1', version: 1 }])
    expect(await history.of('nest', 'N1', 'small')).toMatchObject([{ what: 'added', before: null }])
    expect(await history.of('incident', 'I1', 'small')).toMatchObject([{ what: 'added' }])
  })

  it('stay as people left them when the feeder is taken in again', async () => {
    const { nests, incidents, feeders } = temporary.store
    await nests.change('small', 'N1', 1, NEST, stampAt(1))
    await incidents.delete('small', 'I1', 1, stampAt(2))
    await incidents.purge('small', 'I1', 2, 'a duplicate', stampAt(3))
    await feeders.add(nestingFeeder(), 'added', stampAt(4))
    expect(await nests.list('small')).toMatchObject([{ id: 'N1', ...NEST, version: 2 }])
    expect(await incidents.list('small')).toEqual([])
    expect(await incidents.listDeleted('small')).toEqual([])
  })
})

describe('every kind of the bird record', () => {
  it('counts versions and refuses one that is not the newest, with what stands', async () => {
    const { nests, incidents } = temporary.store
    const added = await nests.add('small', 'N2', NEST, stampAt(1))
    const moved = recordOf(
      await nests.change('small', 'N2', 1, { ...NEST, pole: undefined }, stampAt(2)),
    )
    expect([added.version, moved.version]).toEqual([1, 2])
    expect(moved).not.toHaveProperty('pole')
    expect(await nests.change('small', 'N2', 1, NEST, stampAt(3))).toEqual({
      status: 'stale',
      current: moved,
    })
    const later = { ...OSPREY_FOUND, foundOn: '2026-06-01', count: 2, hadOutage: true }
    await incidents.add('small', 'I2', later, stampAt(1))
    expect((await incidents.list('small')).map(({ id }) => id)).toEqual(['I2', 'I1'])
  })

  it('deletes, restores and purges with its history', async () => {
    const { nests, poleTops, history } = temporary.store
    await nests.delete('small', 'N1', 1, stampAt(1, 'kim'))
    expect(await nests.listDeleted('small')).toMatchObject([
      { subject: 'nest', subjectId: 'N1', what: 'nest of osprey on pole P3', deletedBy: 'kim' },
    ])
    expect(await nests.change('small', 'N1', 2, NEST, stampAt(2))).toMatchObject({
      status: 'wrong-state',
    })
    recordOf(await nests.restore('small', 'N1', 2, stampAt(3)))
    await poleTops.choose('small', 0, CHOICE, stampAt(4))
    await poleTops.delete('small', 'P3', 1, stampAt(5))
    recordOf(await poleTops.purge('small', 'P3', 2, 'the wrong pole', stampAt(6)))
    const told = await history.of('nest', 'N1', 'small')
    expect(told.map(({ what }) => what)).toEqual(['added', 'deleted', 'restored'])
  })

  it('is found sound by the check of the record, and not where a row was changed behind it', async () => {
    const { store } = temporary
    await store.nests.add('small', 'N2', NEST, stampAt(1))
    await store.poleTops.choose('small', 0, CHOICE, stampAt(1))
    await store.programmes.add('small', 'Y1', KEPT, stampAt(1))
    await store.birdSettings.change(0, BirdSettings.parse({ inspectEveryMonths: 24 }), stampAt(1))
    await store.protections.add('small', 'full', FULL_ITEM, stampAt(1))
    expect((await verifyRecord(temporary.options)).rows).toEqual([])
    const { plain } = store.database
    for (const table of [
      'nests',
      'incidents',
      'pole_tops',
      'programmes',
      'bird_settings',
    ] as const) {
      await plain.updateTable(table).set({ changed_at: '2020-01-01T00:00:00.000Z' }).execute()
    }
    const { rows } = await verifyRecord(temporary.options)
    expect(rows.map((fault) => fault.split(' ').slice(1, 3).join(' '))).toEqual([
      'nest N1',
      'nest N2',
      'incident I1',
      'pole-top P3',
      'programme Y1',
      'bird-settings utility',
    ])
  })
})

const KEPT = KeepProgrammeBody.parse({
  name: 'East side 2027',
  note: '',
  state: 'draft',
  programme: {
    request: {
      budgetUsd: 10_000,
      from: '2027-01-01',
      to: '2027-06-30',
      crews: 1,
      polesPerCrewDay: 4,
      visitCostUsd: 350,
      sharedVisitM: 800,
      waitingForJob: [],
    },
    poles: [],
    rounds: [],
    leftOut: [{ pole: 'P2', why: 'Nest in use.' }],
    costUsd: 0,
    reduction: 0,
    reductionPossible: 1,
    gap: 0,
    curve: [],
  },
})

const FULL_ITEM = ProtectionBody.parse({
  pole: 'P3',
  kind: 'cover',
  what: 'cutout cover, A phase',
  state: 'on',
  on: '2026-05-01',
  measure: 'cutout cover',
  partIds: ['cutout-A'],
  dimensionM: 3.05,
  materialClass: '25 kV, polymer',
  installedBy: 'line crew 2',
  costUsd: 120.5,
  inspectEveryMonths: 36,
  condition: 'sound',
  inspectedOn: '2026-06-01',
})

it('keeps all that an item on a pole may say', async () => {
  const { protections } = temporary.store
  await protections.add('small', 'full', FULL_ITEM, stampAt(1))
  const reopened = await temporary.reopen()
  const kept = (await reopened.protections.list('small')).find(({ id }) => id === 'full')
  expect(kept).toMatchObject(FULL_ITEM)
  const { measure: _measure, condition: _condition, ...less } = FULL_ITEM
  const changed = recordOf(
    await reopened.protections.change('small', 'full', 1, { ...less, partIds: [] }, stampAt(2)),
  )
  expect(changed).not.toHaveProperty('measure')
  expect(changed).not.toHaveProperty('condition')
  expect(changed.partIds).toEqual([])
})

describe('the top of a pole', () => {
  it('is chosen once by whoever saw none, and then by the version', async () => {
    const { poleTops } = temporary.store
    const attempts = ['left', 'right'].map((note) =>
      poleTops.choose('small', 0, { ...CHOICE, note }, stampAt(1)),
    )
    const statuses = (await Promise.all(attempts)).map(({ status }) => status)
    expect(statuses.sort()).toEqual(['stale', 'written'])
    const changed = recordOf(await poleTops.choose('small', 1, CHOICE, stampAt(2)))
    expect(changed).toMatchObject({ ...CHOICE, id: 'P3', version: 2 })
    expect(await poleTops.list('small')).toEqual([changed])
    expect(await poleTops.choose('small', 4, { ...CHOICE, pole: 'P2' }, stampAt(3))).toEqual({
      status: 'missing',
    })
  })

  it('is chosen anew after it was taken back, and after it was purged', async () => {
    const { poleTops, history } = temporary.store
    await poleTops.choose('small', 0, CHOICE, stampAt(1))
    await poleTops.delete('small', 'P3', 1, stampAt(2))
    expect((await poleTops.choose('small', 2, CHOICE, stampAt(3))).status).toBe('stale')
    expect(recordOf(await poleTops.choose('small', 0, CHOICE, stampAt(3))).version).toBe(3)
    await poleTops.delete('small', 'P3', 3, stampAt(4))
    await poleTops.purge('small', 'P3', 4, 'the wrong pole', stampAt(5))
    expect(recordOf(await poleTops.choose('small', 0, CHOICE, stampAt(6))).version).toBe(6)
    const told = await history.of('pole-top', 'P3', 'small')
    expect(told.map(({ what }) => what)).toEqual([
      'added',
      'deleted',
      'restored',
      'deleted',
      'purged',
      'added',
    ])
    expect((await verifyRecord(temporary.options)).rows).toEqual([])
  })
})

describe('what the bird work goes by', () => {
  it('is nobody’s and empty until it is set, then has versions and a history of no feeder', async () => {
    const { birdSettings, history } = temporary.store
    const nothing = await birdSettings.get()
    expect(nothing).toMatchObject({ version: 0, changedBy: null, changedAt: null })
    const first = BirdSettings.parse({ countWetFeathers: true })
    recordOf(await birdSettings.change(0, first, stampAt(1, 'kim')))
    expect(await birdSettings.change(0, first, stampAt(2))).toMatchObject({ status: 'stale' })
    const second = BirdSettings.parse({ weights: { nest: 2 } })
    recordOf(await birdSettings.change(1, second, stampAt(3)))
    expect((await birdSettings.get()).settings).toEqual(second)
    const told = await history.of('bird-settings', 'utility')
    expect(told.map(({ feederId, version, actorId }) => [feederId, version, actorId])).toEqual([
      [null, 1, 'kim'],
      [null, 2, stampAt(3).actor.id],
    ])
    const { chain } = await verifyRecord(temporary.options)
    expect(chain.fault).toBeNull()
  })
})

it('keeps nests of the same id on two feeders apart', async () => {
  const { nests, feeders } = temporary.store
  await feeders.add(
    { ...smallFeeder({ id: 'twin' }), nests: nestingFeeder().nests },
    'added',
    stampAt(1),
  )
  await nests.delete('twin', 'N1', 1, stampAt(2))
  expect((await nests.list('small')).map(({ id }) => id)).toEqual(['N1'])
  expect(await nests.list('twin')).toEqual([])
})
