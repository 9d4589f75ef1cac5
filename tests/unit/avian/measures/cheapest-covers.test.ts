import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { cheapestCovers } from '../../../../server/domain/avian/measures/cheapest-covers.ts'
import {
  COVER_KINDS,
  type CoverKind,
  coverFor,
} from '../../../../server/domain/avian/measures/cover-parts.ts'
import type { ContactPair } from '../../../../server/domain/avian/pole-top/contact-pair.ts'
import type { PartKind } from '../../../../server/domain/avian/pole-top/part.ts'
import { madePart, type PlainPart } from './made-pole-top.ts'

const KINDS: readonly PartKind[] = [
  'bushing',
  'cutout',
  'arrester',
  'jumper',
  'conductor',
  'dead-end clamp',
  'ground wire',
  'tank',
  'switch blade',
  'bracket',
]

const part = (kind: PartKind, index = 1): PlainPart => ({
  id: `${kind}-${index}`,
  kind,
  potential: ['tank', 'bracket', 'ground wire'].includes(kind) ? 'grounded' : 'A',
  at: [0, 0, 0],
})

const pair = (one: PlainPart, other: PlainPart): ContactPair => ({
  partA: madePart(one),
  partB: madePart(other),
  horizontalM: 0.3,
  verticalM: 0.3,
  distanceM: 0.42,
  at: [
    [0, 0, 0],
    [0, 0, 0],
  ],
  share: 0.5,
  perchId: 'pole',
})

const PRICES: Readonly<Record<CoverKind, number>> = {
  'bushing cover': 350,
  'cutout cover': 300,
  'arrester cap': 175,
  'insulated jumper': 350,
  'conductor cover': 550,
  'dead-end cover': 550,
  'ground-wire moulding': 225,
}
const price = (kind: CoverKind) => PRICES[kind]

describe('the cheapest covers', () => {
  it('pay once for a kind, however many parts of the pole get it', () => {
    const pairs = [1, 2, 3].map((index) => pair(part('bushing', index), part('tank', index)))
    const { uses, costUsd } = cheapestCovers(pairs, price)
    expect(uses).toEqual([
      { kind: 'bushing cover', partIds: ['bushing-1', 'bushing-2', 'bushing-3'] },
    ])
    expect(costUsd).toBe(350)
  })

  it('take one kind that closes two pairs rather than two that close one each', () => {
    const pairs = [pair(part('jumper'), part('bushing')), pair(part('jumper'), part('cutout'))]
    expect(cheapestCovers(pairs, price)).toMatchObject({
      uses: [{ kind: 'insulated jumper', partIds: ['jumper-1'] }],
      costUsd: 350,
    })
  })

  it('cover no switch blade, tank or bracket, and say which pairs that leaves open', () => {
    const blade = pair(part('switch blade'), part('tank'))
    const { uses, leftOpen } = cheapestCovers(
      [blade, pair(part('arrester'), part('bracket'))],
      price,
    )
    expect(uses.map(({ kind }) => kind)).toEqual(['arrester cap'])
    expect(leftOpen).toEqual([blade])
  })

  it('cost no more than any other choice of kinds that closes as much, by trying them all', () => {
    fc.assert(
      fc.property(pairLists, prices, (pairs, costs) => {
        const found = cheapestCovers(pairs, (kind) => costs[kind] ?? 0)
        expect(found.costUsd).toBeCloseTo(cheapestOfAll(pairs, costs), 6)
        expect(openAfter(pairs, found.uses)).toEqual(found.leftOpen)
      }),
    )
  })
})

const anyPart = fc
  .tuple(fc.constantFrom(...KINDS), fc.integer({ min: 1, max: 3 }))
  .map(([kind, index]) => part(kind, index))
const pairLists = fc.array(
  fc.tuple(anyPart, anyPart).map(([one, other]) => pair(one, other)),
  { maxLength: 12 },
)
const prices = fc.record(
  Object.fromEntries(COVER_KINDS.map((kind) => [kind, fc.integer({ min: 1, max: 900 })])),
)

function openAfter(
  pairs: readonly ContactPair[],
  uses: readonly { readonly partIds: readonly string[] }[],
): ContactPair[] {
  const covered = new Set(uses.flatMap(({ partIds }) => partIds))
  return pairs.filter(({ partA, partB }) => !covered.has(partA.id) && !covered.has(partB.id))
}

/** Every subset of kinds, each put on all parts that it fits. */
function cheapestOfAll(pairs: readonly ContactPair[], costs: Record<string, number>): number {
  const fits = ({ partA, partB }: ContactPair, kinds: readonly CoverKind[]) =>
    [partA, partB].some((each) => kinds.some((kind) => coverFor(each) === kind))
  const closable = pairs.filter((each) => fits(each, COVER_KINDS))
  let least = Number.POSITIVE_INFINITY
  for (let bits = 0; bits < 2 ** COVER_KINDS.length; bits++) {
    const kinds = COVER_KINDS.filter((_, index) => (bits >> index) % 2 === 1)
    const costUsd = kinds.reduce((sum, kind) => sum + (costs[kind] ?? 0), 0)
    if (costUsd < least && closable.every((each) => fits(each, kinds))) least = costUsd
  }
  return least
}
