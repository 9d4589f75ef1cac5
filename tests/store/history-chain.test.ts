import { createHash } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import type { HistoryEntry } from '../../server/services/ports.ts'
import { canonicalJson } from '../../server/store/canonical-json.ts'
import { checkChain, hashOfEntry, NO_HASH } from '../../server/store/history-chain.ts'

type Open = Omit<HistoryEntry, 'hash' | 'previousHash' | 'seq'>

const OPEN: Open = {
  subject: 'protection',
  feederId: 'small',
  subjectId: 'cover-1',
  version: 1,
  what: 'added',
  at: '2026-05-01T08:00:00.000Z',
  deviceAt: null,
  actorId: 'robin',
  actorRole: 'crew',
  reason: null,
  before: null,
  after: { pole: 'P2', note: 'loose' },
}

/** A sound chain of so many versions of one thing. */
function chainOf(count: number): HistoryEntry[] {
  const chain: HistoryEntry[] = []
  for (let seq = 1; seq <= count; seq++) {
    const previousHash = chain.at(-1)?.hash ?? NO_HASH
    const entry = { ...OPEN, version: seq, seq, previousHash }
    chain.push({ ...entry, hash: hashOfEntry(entry) })
  }
  return chain
}

async function* each(entries: readonly HistoryEntry[]) {
  yield* entries
}

const check = (entries: readonly HistoryEntry[], head?: string) => checkChain(each(entries), head)

describe('the canonical text', () => {
  // Example and expected octets: RFC 8785, sections 3.2.2 and 3.2.4.
  it('is that of the example in RFC 8785', () => {
    const text = String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`
    expect(canonicalJson(JSON.parse(text))).toBe(
      '{"literals":[null,true,false],' +
        '"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
        '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    )
  })

  // Order of the members: RFC 8785, section 3.2.3.
  it('orders members by their UTF-16 code units, as RFC 8785 does', () => {
    const names = ['\u20ac', '\r', '\ufb33', '1', '\ud83d\ude00', '\u0080', '\u00f6']
    const text = canonicalJson(Object.fromEntries(names.map((name) => [name, 0])))
    const inOrder = ['\r', '1', '\u0080', '\u00f6', '\u20ac', '\ud83d\ude00', '\ufb33']
    expect(text).toBe(`{${inOrder.map((name) => `${JSON.stringify(name)}:0`).join(',')}}`)
  })

  it('does not depend on the order in which members were put in', () => {
    expect(canonicalJson({ b: [{ d: 1, c: 2 }], a: undefined })).toBe('{"b":[{"c":2,"d":1}]}')
  })
})

describe('the hash of an entry', () => {
  it('is the SHA-256 of its canonical text without the hash', () => {
    const [entry] = chainOf(1)
    const text =
      '{"actorId":"robin","actorRole":"crew","after":{"note":"loose","pole":"P2"},' +
      '"at":"2026-05-01T08:00:00.000Z","before":null,"deviceAt":null,"feederId":"small",' +
      `"previousHash":"${'0'.repeat(64)}","reason":null,"seq":1,"subject":"protection",` +
      '"subjectId":"cover-1","version":1,"what":"added"}'
    expect(entry?.hash).toBe(createHash('sha256').update(text).digest('hex'))
  })

  it('changes with every member', () => {
    const [entry] = chainOf(1)
    const { hash, ...others } = entry!
    const changed = Object.keys(others).map((name) => hashOfEntry({ ...others, [name]: 'other' }))
    expect(new Set([hash, ...changed]).size).toBe(Object.keys(others).length + 1)
  })
})

describe('a check of the chain', () => {
  it('finds nothing wrong with a sound one and names its head', async () => {
    const chain = chainOf(4)
    expect(await check(chain)).toEqual({
      entries: 4,
      head: { seq: 4, hash: chain[3]!.hash },
      fault: null,
      knownHeadSeq: null,
    })
    expect(await check([])).toMatchObject({ entries: 0, head: null, fault: null })
  })

  it('finds a head that was noted down earlier', async () => {
    const chain = chainOf(4)
    expect((await check(chain, chain[1]!.hash)).knownHeadSeq).toBe(2)
  })

  it('names the first entry that was changed, swapped, taken out or put in', async () => {
    const [one, two, three, four] = chainOf(4) as [
      HistoryEntry,
      HistoryEntry,
      HistoryEntry,
      HistoryEntry,
    ]
    const cases: [string, HistoryEntry[], number][] = [
      ['changed', [one, { ...two, actorId: 'mallory' }, three, four], 2],
      ['changed in its content', [one, two, { ...three, after: { pole: 'P3' } }, four], 3],
      ['taken out', [one, two, four], 3],
      ['taken out and closed up', [one, two, { ...four, seq: 3 }], 3],
      ['first taken out', [two, three, four], 1],
      ['swapped', [one, { ...three, seq: 2 }, { ...two, seq: 3 }, four], 2],
      ['put in twice', [one, two, two, three, four], 2],
    ]
    const found = await Promise.all(
      cases.map(async ([name, entries]) => [name, (await check(entries)).fault?.seq]),
    )
    expect(found).toEqual(cases.map(([name, , seq]) => [name, seq]))
  })

  it('shows a changed entry whose own hash was made again by the one after it', async () => {
    const [one, two, three] = chainOf(3) as [HistoryEntry, HistoryEntry, HistoryEntry]
    const forged = { ...two, actorId: 'mallory' }
    const { fault } = await check([one, { ...forged, hash: hashOfEntry(forged) }, three])
    expect(fault?.seq).toBe(3)
  })

  it('shows a tail that was cut off, or a chain made anew, by the head noted down before', async () => {
    const chain = chainOf(4)
    const head = chain[3]!.hash
    expect(await check(chain.slice(0, 2), head)).toMatchObject({ fault: null, knownHeadSeq: null })
    const anew = chainOf(4).map((entry) => ({ ...entry }))
    anew[0] = { ...anew[0]!, actorId: 'mallory' }
    for (const [index, entry] of anew.entries()) {
      const previousHash = anew[index - 1]?.hash ?? NO_HASH
      anew[index] = { ...entry, previousHash, hash: hashOfEntry({ ...entry, previousHash }) }
    }
    expect(await check(anew)).toMatchObject({ fault: null })
    expect(await check(anew, head)).toMatchObject({ knownHeadSeq: null })
  })

  it('does not count a known head that stands behind a broken entry', async () => {
    const chain = chainOf(4)
    chain[1] = { ...chain[1]!, actorId: 'mallory' }
    expect((await check(chain, chain[3]!.hash)).knownHeadSeq).toBeNull()
  })
})
