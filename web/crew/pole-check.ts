import type { FeederModel } from '../state/feeder-model.ts'
import { type PoleSign, signsOfPole } from './pole-signs.ts'

/** Spans to either side within which a crew may have taken one pole for another. */
const REACH_SPANS = 4
const MOST_ASKED = 8
/** Of those, what poles nearby have and the right one has not. */
const MOST_ABSENT = 3
/** Something seen that should not be, or missed that should, weighs more than something that fits. */
const AGAINST = 2
const LEAST_ANSWERS = 2

export type SeenAnswer = 'yes' | 'no'

/** A question to the crew at a pole. */
export interface AskedSign extends PoleSign {
  /** What the record expects at the right pole. */
  readonly expected: SeenAnswer
}

/** A pole as it lies from the one that is looked for. */
export interface LikelyPole {
  readonly poleId: string
  /** "two up", "one down", "one up, two down a branch". */
  readonly where: string
}

export type PoleCheck =
  | { readonly kind: 'ask more'; readonly answersToGo: number }
  | { readonly kind: 'this one' }
  /** It fits, and so do these. */
  | { readonly kind: 'this or another'; readonly others: readonly LikelyPole[] }
  | {
      readonly kind: 'another'
      readonly likely: LikelyPole
      readonly against: readonly AskedSign[]
    }
  | { readonly kind: 'none fits'; readonly against: readonly AskedSign[] }

interface Candidate extends LikelyPole {
  readonly spansOff: number
  readonly keys: ReadonlySet<string>
}

/** What to look for at a pole: what tells it best first, then what only its neighbours have. */
export function askedAtPole(model: FeederModel, poleId: string): AskedSign[] {
  const own = signsOfPole(model, poleId)
  const near = candidatesAround(model, poleId)
  const rarity = (key: string) => near.filter(({ keys }) => keys.has(key)).length
  const present = own
    .filter(({ key, weight }) => weight > 1 || rarity(key) < near.length)
    .sort((a, b) => b.weight - a.weight || rarity(a.key) - rarity(b.key))
    .map((sign): AskedSign => ({ ...sign, expected: 'yes' }))
  const ownKeys = new Set(own.map(({ key }) => key))
  const absent = uniqueSigns(model, near)
    .filter(({ key, weight }) => weight > 1 && isAskedWhereAbsent(key) && !ownKeys.has(key))
    .sort((a, b) => b.weight - a.weight || rarity(b.key) - rarity(a.key))
    .slice(0, MOST_ABSENT)
    .map((sign): AskedSign => ({ ...sign, expected: 'no' }))
  return [...present.slice(0, MOST_ASKED - absent.length), ...absent]
}

/** Another count of conductors or another tag is told by the right one being denied. */
function isAskedWhereAbsent(key: string): boolean {
  return key.startsWith('hangs ') || key.startsWith('line ')
}

function uniqueSigns(model: FeederModel, near: readonly Candidate[]): PoleSign[] {
  const found = new Map<string, PoleSign>()
  for (const { poleId } of near) {
    for (const sign of signsOfPole(model, poleId)) found.set(sign.key, sign)
  }
  return [...found.values()]
}

/**
 * Holds what a crew sees against the pole that it looks for and those around it. A pole scores the
 * weight of each answer that fits it and loses twice the weight of each that does not; what was not
 * answered counts for nothing. It reads the record, so it can only say what is likely: the tag decides.
 */
export function checkPole(
  model: FeederModel,
  poleId: string,
  answers: ReadonlyMap<string, SeenAnswer>,
): PoleCheck {
  const asked = askedAtPole(model, poleId).filter(({ key }) => answers.has(key))
  if (asked.length < LEAST_ANSWERS) {
    return { kind: 'ask more', answersToGo: LEAST_ANSWERS - asked.length }
  }
  const against = asked.filter(({ key, expected }) => answers.get(key) !== expected)
  const others = candidatesAround(model, poleId)
    .map((candidate) => ({ candidate, ...scoreOf(candidate.keys, asked, answers) }))
    .sort((a, b) => b.score - a.score || a.candidate.spansOff - b.candidate.spansOff)
  if (against.length === 0) {
    const equal = others.filter(({ misfits }) => misfits === 0).map(({ candidate }) => candidate)
    return equal.length === 0 ? { kind: 'this one' } : { kind: 'this or another', others: equal }
  }
  const own = scoreOf(keysOf(model, poleId), asked, answers)
  const best = others.find(({ seen }) => seen > 0)
  return best && best.score > Math.max(own.score, 0)
    ? { kind: 'another', likely: best.candidate, against }
    : { kind: 'none fits', against }
}

interface Score {
  readonly score: number
  readonly misfits: number
  /** How many things that the crew sees it has. */
  readonly seen: number
}

function scoreOf(
  keys: ReadonlySet<string>,
  asked: readonly AskedSign[],
  answers: ReadonlyMap<string, SeenAnswer>,
): Score {
  let [score, misfits, seen] = [0, 0, 0]
  for (const { key, weight } of asked) {
    const isSeen = answers.get(key) === 'yes'
    const isFit = isSeen === keys.has(key)
    score += isFit ? weight : -AGAINST * weight
    if (!isFit) misfits += 1
    if (isFit && isSeen) seen += 1
  }
  return { score, misfits, seen }
}

const keysOf = (model: FeederModel, poleId: string): ReadonlySet<string> =>
  new Set(signsOfPole(model, poleId).map(({ key }) => key))

/** Poles within reach along the line, whichever way, with their place in words. */
function candidatesAround(model: FeederModel, poleId: string): Candidate[] {
  const found = new Map([[poleId, { up: 0, down: 0 }]])
  const queue = [poleId]
  for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
    const here = found.get(at) ?? { up: 0, down: 0 }
    if (here.up + here.down >= REACH_SPANS) continue
    const above = here.down === 0 ? model.upstreamOf.get(at) : undefined
    const steps = [
      ...(above === undefined ? [] : [[above, { up: here.up + 1, down: 0 }] as const]),
      ...(model.downstreamOf.get(at) ?? []).map(
        (below) => [below, { up: here.up, down: here.down + 1 }] as const,
      ),
    ]
    for (const [next, place] of steps) {
      if (found.has(next)) continue
      found.set(next, place)
      queue.push(next)
    }
  }
  found.delete(poleId)
  return [...found].map(([id, { up, down }]) => ({
    poleId: id,
    where: whereInWords(up, down),
    spansOff: up + down,
    keys: keysOf(model, id),
  }))
}

const NUMBERS = ['none', 'one', 'two', 'three', 'four']

/** Up is toward the source. */
function whereInWords(up: number, down: number): string {
  if (down === 0) return `${NUMBERS[up]} up`
  if (up === 0) return `${NUMBERS[down]} down`
  return `${NUMBERS[up]} up, ${NUMBERS[down]} down a branch`
}
