import { magnitude } from '#domain/units/complex.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import type { ByPhase } from '../electrical/solution.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { LoadCase } from '../feeder/header.ts'
import { isBypassed } from '../feeder/is-bypassed.ts'
import { type BankBench, bankBench, type NotSolved, type SolvedUnit } from './bank-bench.ts'
import type { BankWork, ExpectedCase, ExpectedReading } from './job-plan.ts'
import { relayVolts } from './relay-volts.ts'

export type ExpectedNow =
  | { readonly status: 'solved'; readonly readings: ExpectedReading[] }
  | NotSolved

export interface ExpectedInCases {
  readonly cases: ExpectedCase[]
  /** Why a case is missing, in sentences. */
  readonly notes: string[]
}

/**
 * What meters at the pole should show in each case that can be solved, with the bank as it is to
 * stand and every bank following its control.
 */
export function expectedInCases(feeder: Feeder, bank: BankWork): ExpectedInCases {
  return readingsInCases(feeder, bank, 'controlled')
}

/**
 * The same with the bank as it stands before the work, under a closed bypass at neutral; null where
 * none stands or every reading is the same.
 */
export function foundInCases(
  feeder: Feeder,
  bank: BankWork,
  expected: readonly ExpectedCase[],
): ExpectedCase[] | null {
  const { standing } = bank
  if (!standing || isSame(standing, bank.regulator)) return null
  const { state: _state, ...inService } = standing
  const taps = isBypassed(standing) ? {} : ('controlled' as const)
  const { cases } = readingsInCases(feeder, { ...bank, regulator: inService, standing }, taps)
  return isSame(cases, expected) ? null : cases
}

function isSame<Plain>(one: Plain, other: Plain): boolean {
  return JSON.stringify(one) === JSON.stringify(other)
}

function readingsInCases(
  feeder: Feeder,
  bank: BankWork,
  taps: ByPhase<number> | 'controlled',
): ExpectedInCases {
  const bench = benchOf(feeder, bank)
  if (bench.status === 'not solved') return { cases: [], notes: [bench.what] }
  const cases: ExpectedCase[] = []
  const notes: string[] = []
  for (const loadCase of feeder.header.cases) {
    const solution = bench.solve(loadCase, taps)
    if (solution.status === 'not solved') notes.push(solution.what)
    else {
      const readings = readingsOf(bench, bank, solution.units)
      cases.push({ caseId: loadCase.id, caseName: loadCase.name, readings })
    }
  }
  return { cases, notes }
}

/**
 * The same for the load and the positions that the crew reads off. The factor scales the loads of the
 * case; its generation stays. Where positions are given the bank is held there, at neutral on phases
 * that are left out.
 *
 * @throws For a case that the feeder does not have.
 */
export function expectedAt(
  feeder: Feeder,
  bank: BankWork,
  given: {
    readonly caseId: string
    readonly loadFactor: number
    readonly taps: ByPhase<number> | 'controlled'
  },
): ExpectedNow {
  const bench = benchOf(feeder, bank)
  if (bench.status === 'not solved') return bench
  const solution = bench.solve(scaled(caseOf(feeder, given.caseId), given.loadFactor), given.taps)
  if (solution.status === 'not solved') return solution
  return { status: 'solved', readings: readingsOf(bench, bank, solution.units) }
}

/** Loads are looked for up to this many times those of the case. */
const MOST_LOAD_FACTOR = 4
const LOOKS = 32
const LOOK_STEP = MOST_LOAD_FACTOR / LOOKS
const HALVINGS = 30
/** Read off a clamp meter, and so no nearer than this (common practice, no source). */
const AMPS_TOLERANCE = 0.02
const LEAST_TOLERANCE_A = 0.5

/**
 * The factor on the loads of a case at which the model carries the amps that the crew reads off,
 * summed over the phases that are given; null where no load does. Where several do, as with
 * generation beyond the bank, it is the one at which the single phases fit best, and the nearest to
 * the case where that decides nothing.
 *
 * @throws For a case that the feeder does not have.
 */
export function loadFactorFor(
  feeder: Feeder,
  bank: BankWork,
  given: {
    readonly caseId: string
    readonly taps: ByPhase<number> | 'controlled'
    readonly amps: ByPhase<number>
  },
): number | null {
  const loadCase = caseOf(feeder, given.caseId)
  const bench = benchOf(feeder, bank)
  if (bench.status === 'not solved') return null
  const read = bench.phases.flatMap((phase) => {
    const amps = given.amps[phase]
    return amps === undefined ? [] : [{ phase, amps }]
  })
  if (read.length === 0) return null
  const wantedA = sum(read.map(({ amps }) => amps))
  const toleranceA = Math.max(LEAST_TOLERANCE_A, wantedA * AMPS_TOLERANCE)
  /** Amps of each phase that was read; null where there is no solution. */
  const ampsAt = (factor: number): number[] | null => {
    const solution = bench.solve(scaled(loadCase, factor), given.taps)
    if (solution.status === 'not solved') return null
    return read.map(({ phase }) => magnitudeOf(solution.units[phase]))
  }
  const isMore = (factor: number): boolean => {
    const amps = ampsAt(factor)
    return amps === null || sum(amps) >= wantedA
  }
  const fitting = [0, ...crossings(isMore)].flatMap((factor) => {
    const amps = ampsAt(factor)
    if (amps === null || Math.abs(sum(amps) - wantedA) > toleranceA) return []
    const offA = sum(read.map((each, index) => Math.abs(each.amps - (amps[index] ?? 0))))
    return [{ factor, offA }]
  })
  return bestFactor(fitting, toleranceA / 10)
}

interface Fitting {
  readonly factor: number
  /** Between what is read and what is solved, summed over the phases. */
  readonly offA: number
}

/** @param sameA Fits that differ by no more are equally good, and the nearest to the case is taken. */
function bestFactor(fitting: readonly Fitting[], sameA: number): number | null {
  const leastOffA = Math.min(...fitting.map(({ offA }) => offA))
  const [best] = fitting
    .filter(({ offA }) => offA <= leastOffA + sameA)
    .toSorted((a, b) => Math.abs(a.factor - 1) - Math.abs(b.factor - 1))
  return best?.factor ?? null
}

/** Factors at which the amps pass what is wanted, either way. */
function crossings(isMore: (factor: number) => boolean): number[] {
  const found: number[] = []
  let before = isMore(0)
  for (let look = 1; look <= LOOKS; look++) {
    const to = look * LOOK_STEP
    const now = isMore(to)
    if (now !== before) found.push(halved(isMore, to - LOOK_STEP, to, now))
    before = now
  }
  return found
}

/** @param atHigh What is said at the upper end, and not at the lower. */
function halved(
  isMore: (factor: number) => boolean,
  from: number,
  to: number,
  atHigh: boolean,
): number {
  let [low, high] = [from, to]
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (low + high) / 2
    if (isMore(middle) === atHigh) high = middle
    else low = middle
  }
  return atHigh ? low : high
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}

function magnitudeOf(unit: SolvedUnit | undefined): number {
  return unit ? magnitude(unit.current) : 0
}

function benchOf(feeder: Feeder, { regulator, standing }: BankWork): BankBench | NotSolved {
  return bankBench(feeder, regulator, standing?.id)
}

function caseOf({ header }: Feeder, caseId: string): LoadCase {
  const found = header.cases.find(({ id }) => id === caseId)
  if (!found) throw new Error(`Feeder "${header.id}" has no case "${caseId}".`)
  return found
}

function scaled(loadCase: LoadCase, factor: number): LoadCase {
  const classFactors = Object.fromEntries(
    Object.entries(loadCase.classFactors).map(([name, own]) => [name, own * factor]),
  )
  return { ...loadCase, loadFactor: loadCase.loadFactor * factor, classFactors }
}

function readingsOf(
  { phases }: BankBench,
  { regulator, neutralV }: BankWork,
  units: ByPhase<SolvedUnit>,
): ExpectedReading[] {
  return phases.flatMap((phase) => {
    const unit = units[phase]
    if (!unit) return []
    const [sourceV, loadV] = [magnitude(unit.source), magnitude(unit.load)]
    return {
      phase,
      tap: unit.tap,
      sourceV,
      loadV,
      sourceVolts120: (sourceV / neutralV) * BASE_VOLTS120,
      loadVolts120: (loadV / neutralV) * BASE_VOLTS120,
      relayVolts: relayVolts(regulator, unit.load, unit.current),
      amps: magnitude(unit.current),
    }
  })
}
