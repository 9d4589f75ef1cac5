import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { HistoryEntry, ProtectionRecord, Written } from '../../server/services/ports.ts'
import { checkChain } from '../../server/store/history-chain.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { TESTED_KIND } from '../support/fresh-database.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { stampAt, temporaryStore } from './temporary-store.ts'

const temporary = temporaryStore()

/** A database of its own for each run would take most of the time, so each run has a feeder of its own. */
const RUNS = TESTED_KIND === 'PostgreSQL' ? 15 : 30

const ITEMS = ['one', 'two', 'three']
const PEOPLE = ['robin', 'sam', 'kim']
const BODY = { pole: 'P3', kind: 'perch', what: 'perch', state: 'on', on: '2026-05-01' } as const

const ACTS = ['change', 'delete', 'restore', 'purge'] as const
type Act = (typeof ACTS)[number]

interface Step {
  readonly person: string
  readonly item: string
  readonly act: Act
  readonly note: string
  readonly second: number
}

const Step: fc.Arbitrary<Step> = fc.record({
  person: fc.constantFrom(...PEOPLE),
  item: fc.constantFrom(...ITEMS),
  act: fc.constantFrom<Act>(...ACTS, 'change', 'delete', 'restore'),
  note: fc.string({ maxLength: 8 }).map((text) => text.replaceAll('\0', '')),
  /** A clock that is set back now and then. */
  second: fc.integer({ min: 0, max: 59 }),
})

/** People look at the same moment, then all act at once on what they saw. */
const Rounds = fc.array(fc.array(Step, { minLength: 1, maxLength: 4 }), {
  minLength: 1,
  maxLength: 8,
})

type Result = Written<unknown>['status']

async function run(feederId: string, rounds: readonly (readonly Step[])[]): Promise<void> {
  const { feeders, protections } = temporary.store
  await feeders.add(smallFeeder({ id: feederId }), 'added', stampAt(1))
  for (const item of ITEMS) await protections.add(feederId, item, BODY, stampAt(1))
  for (const round of rounds) {
    const seen = await lastOf(feederId)
    const results = await Promise.all(round.map((step) => act(feederId, seen, step)))
    expectOneWinnerEach(seen, round, results)
  }
}

/** The last entry of each item. */
async function lastOf(feederId: string): Promise<Map<string, HistoryEntry>> {
  const last = new Map<string, HistoryEntry>()
  for (const entry of await entriesOf(feederId)) last.set(entry.subjectId, entry)
  return last
}

async function entriesOf(feederId: string): Promise<HistoryEntry[]> {
  const entries: HistoryEntry[] = []
  const filter = { feederId, subject: 'protection' } as const
  for await (const entry of temporary.store.history.all(filter)) entries.push(entry)
  return entries
}

async function act(
  feederId: string,
  seen: ReadonlyMap<string, HistoryEntry>,
  { person, item, act, note, second }: Step,
): Promise<Result> {
  const { protections } = temporary.store
  const version = seen.get(item)?.version ?? 0
  const stamp = stampAt(second, person)
  const ways = {
    change: () => protections.change(feederId, item, version, { ...BODY, note }, stamp),
    delete: () => protections.delete(feederId, item, version, stamp),
    restore: () => protections.restore(feederId, item, version, stamp),
    purge: () => protections.purge(feederId, item, version, 'random', stamp),
  }
  return (await ways[act]()).status
}

/** Of those who act on one version, one wins if any of them may do what they try. */
function expectOneWinnerEach(
  seen: ReadonlyMap<string, HistoryEntry>,
  round: readonly Step[],
  results: readonly Result[],
): void {
  for (const item of ITEMS) {
    const ofItem = round.map((step, index) => [step, results[index]] as const)
    const tried = ofItem.filter(([step]) => step.item === item)
    const winners = tried.filter(([, result]) => result === 'written').length
    const isPossible = tried.some(([{ act }]) => mayBe(act, seen.get(item)?.after))
    expect(winners).toBe(isPossible ? 1 : 0)
  }
}

/** Deleted things can be restored and purged, standing ones changed and deleted, purged ones nothing. */
function mayBe(act: Act, record: unknown): boolean {
  if (record === null) return false
  const isDeleted = (record as ProtectionRecord).deletedAt !== null
  return isDeleted === (act === 'restore' || act === 'purge')
}

function expectVersionsWithoutGaps(entries: readonly HistoryEntry[]): void {
  for (const item of new Set(entries.map(({ subjectId }) => subjectId))) {
    const ofItem = entries.filter(({ subjectId }) => subjectId === item)
    expect(ofItem.map(({ version }) => version)).toEqual(ofItem.map((_, index) => index + 1))
    for (const [index, { before }] of ofItem.entries()) {
      expect(before).toEqual(index === 0 ? null : ofItem[index - 1]?.after)
    }
  }
}

/** What stands by the history alone. */
function replay(entries: readonly HistoryEntry[]): ProtectionRecord[] {
  const standing = new Map<string, ProtectionRecord>()
  for (const { subjectId, after } of entries) {
    if (after === null) standing.delete(subjectId)
    else standing.set(subjectId, after as ProtectionRecord)
  }
  return [...standing.values()].filter(({ deletedAt }) => deletedAt === null)
}

it('whatever several people do at once, one wins per version and the history tells all of it', async () => {
  let count = 0
  await fc.assert(
    fc.asyncProperty(Rounds, async (rounds) => {
      const feederId = `feeder-${++count}`
      await run(feederId, rounds)
      const entries = await entriesOf(feederId)
      expectVersionsWithoutGaps(entries)
      const standing = await temporary.store.protections.list(feederId)
      const byId = (left: ProtectionRecord, right: ProtectionRecord) =>
        left.id < right.id ? -1 : 1
      expect(standing.sort(byId)).toEqual(replay(entries).sort(byId))
    }),
    { numRuns: RUNS },
  )
  expect((await checkChain(temporary.store.history.all())).fault).toBeNull()
  expect(await verifyRecord(temporary.options)).toMatchObject({ database: [], rows: [], files: [] })
})
