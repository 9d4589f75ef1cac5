import { placeBanks, type Site } from './placement.ts'
import type { SingleTrial } from './search-singles.ts'
import { checkIn, type Hooks, type Study, worthOf } from './study.ts'
import { addSurelyOutside, fillRoom } from './surely-outside.ts'
import { tryPlacement } from './trial.ts'
import type { RankKey } from './trial-order.ts'

/** A second bank may move voltages that it does not feed by this multiple of the worst seen with one. */
export const SPILL_MULTIPLE = 2
/** Two banks may save, besides the sum of what each saves alone, this share of it … */
export const EXTRA_SAVING_SHARE = 0.25
/** … and this share of the loss as it stands. */
export const EXTRA_SAVING_OF_LOSS = 0.005

/** Bounds on any pair, from trials with one bank. */
export interface PairBound {
  /** No pair can rank before this key. Sites come source side first. */
  readonly keyOf: (a: number, b: number) => RankKey
  readonly spillPu: number
}

/** Loads behind one site and how many of their customers stay outside, as running sums. */
interface Reach {
  readonly firstLoad: number
  readonly endLoad: number
  /** Sum of customers surely outside over loads firstLoad … firstLoad + i − 1. */
  readonly sums: Int32Array
}

/**
 * What a pair changes: behind the bank nearest to it a voltage follows that bank, whose output stays
 * in its band or at the end of its range; elsewhere it moves only through the load current. So a
 * customer that one bank leaves outside by more than the room left in the band, one step, and a
 * multiple of the largest movement seen outside a bank's own part of the feeder stays outside in
 * every pair where that bank is still the nearest. Savings of loss are granted beyond their sum.
 */
export function boundPairs(study: Study, singles: readonly SingleTrial[], hooks: Hooks): PairBound {
  const spillPu = singles.reduce((most, single) => Math.max(most, single.spillPu), 0)
  const slackPu = 2 * SPILL_MULTIPLE * spillPu
  const isFree = study.request.taps === 'search'
  const base = isFree ? emptySums(study) : sumsWith(study, null, slackPu)
  const reaches = singles.map((single, index) => {
    checkIn(hooks, index + 1, singles.length, 'Bounding pairs')
    const range = loadsBehind(study, single.site)
    const sums = isFree || !single.trial ? emptySums(study) : sumsWith(study, single.site, slackPu)
    const cut = sums.slice(range.firstLoad, range.endLoad + 1)
    return { ...range, sums: cut.map((sum) => sum - (cut[0] ?? 0)) }
  })
  return {
    spillPu,
    keyOf: (a, b) => pairKey(study, singles, reaches, base, a, b),
  }
}

function emptySums(study: Study): Int32Array {
  return new Int32Array(study.judge.weight.length + 1)
}

/** Running sums over all loads of customers surely outside, all cases, with one bank or none. */
function sumsWith(study: Study, site: Site | null, slackPu: number): Int32Array {
  const { benches, judge, network, request } = study
  const banks = site ? placeBanks(network, request, [site]) : []
  const surely = new Int32Array(judge.weight.length)
  const room = {
    up: new Float64Array(network.nodeCount * 3),
    down: new Float64Array(network.nodeCount * 3),
  }
  if (tryPlacement(benches, banks, request)) {
    for (const bench of benches) {
      fillRoom(bench, banks, room.up, room.down)
      addSurelyOutside(judge, bench.pu, room, slackPu, surely)
    }
  }
  const sums = emptySums(study)
  surely.forEach((customers, load) => {
    sums[load + 1] = (sums[load] ?? 0) + customers
  })
  return sums
}

/** Loads that a site feeds; they stand in one run, as loads are ordered by node. */
function loadsBehind({ judge, network }: Study, site: Site) {
  const end = network.subtreeEnd[site.branch] ?? 0
  const { loadNode } = judge
  const firstAtOrAfter = (node: number) => {
    const found = loadNode.findIndex((at) => at >= node)
    return found < 0 ? loadNode.length : found
  }
  return { firstLoad: firstAtOrAfter(site.branch), endLoad: firstAtOrAfter(end) }
}

function pairKey(
  study: Study,
  singles: readonly SingleTrial[],
  reaches: readonly Reach[],
  base: Int32Array,
  a: number,
  b: number,
): RankKey {
  const [one, two] = [singles[a], singles[b]]
  const [near, far] = [reaches[a], reaches[b]]
  if (!one || !two || !near || !far) throw new Error(`Expected sites ${a} and ${b} to exist.`)
  const outside = outsideBound(base, near, far)
  const lossKw = study.before.meanLossKw - mostSaved(study, one, two)
  const worth = worthOf(study, [one.site, two.site])
  const usd = worth.bankUsd + (worth.usdPerMeanKw > 0 ? worth.usdPerMeanKw * lossKw : 0)
  return study.request.goal === 'service'
    ? [outside, usd, lossKw, Number.NEGATIVE_INFINITY]
    : [0, lossKw, worth.bankUsd, Number.NEGATIVE_INFINITY]
}

function outsideBound(base: Int32Array, near: Reach, far: Reach): number {
  const between = (sums: Int32Array, from: number, to: number) =>
    (sums[to] ?? 0) - (sums[from] ?? 0)
  const total = (reach: Reach) => reach.sums.at(-1) ?? 0
  const isNested = far.firstLoad >= near.firstLoad && far.endLoad <= near.endLoad
  const elsewhere = (base.at(-1) ?? 0) - between(base, near.firstLoad, near.endLoad)
  if (!isNested) {
    return elsewhere - between(base, far.firstLoad, far.endLoad) + total(near) + total(far)
  }
  const hidden = between(near.sums, far.firstLoad - near.firstLoad, far.endLoad - near.firstLoad)
  return elsewhere + total(near) - hidden + total(far)
}

/** Most kilowatts, in the mean, that the two could save together. */
function mostSaved({ before }: Study, one: SingleTrial, two: SingleTrial): number {
  if (!one.trial || !two.trial) return Number.POSITIVE_INFINITY
  const a = before.meanLossKw - one.trial.meanLossKw
  const b = before.meanLossKw - two.trial.meanLossKw
  const extra = EXTRA_SAVING_SHARE * (Math.abs(a) + Math.abs(b))
  return Math.max(a, b, a + b) + extra + EXTRA_SAVING_OF_LOSS * before.meanLossKw
}
