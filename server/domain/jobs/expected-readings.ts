import { magnitude } from '#domain/units/complex.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import type { ByPhase } from '../electrical/solution.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { LoadCase } from '../feeder/header.ts'
import { type BankBench, bankBench, type NotSolved, type SolvedUnit } from './bank-bench.ts'
import type { BankWork, ExpectedCase, ExpectedReading } from './job-plan.ts'
import { relayVolts } from './relay-volts.ts'

export type ExpectedNow =
  | { readonly status: 'solved'; readonly readings: ExpectedReading[] }
  | NotSolved

/**
 * What meters at the pole should show in each case that can be solved, with the bank as it is to
 * stand and every bank following its control. `expectedInCases` also says what could not be solved.
 */
export function expectedCases(feeder: Feeder, bank: BankWork): ExpectedCase[] {
  return expectedInCases(feeder, bank).cases
}

export interface ExpectedInCases {
  readonly cases: ExpectedCase[]
  /** Why a case is missing, in sentences. */
  readonly notes: string[]
}

export function expectedInCases(feeder: Feeder, bank: BankWork): ExpectedInCases {
  const bench = benchOf(feeder, bank)
  if (bench.status === 'not solved') return { cases: [], notes: [bench.what] }
  const cases: ExpectedCase[] = []
  const notes: string[] = []
  for (const loadCase of feeder.header.cases) {
    const solution = bench.solve(loadCase, 'controlled')
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
const HALVINGS = 30
/** Read off a clamp meter, and so no nearer than this (common practice, no source). */
const AMPS_TOLERANCE = 0.02
const LEAST_TOLERANCE_A = 0.5

/**
 * The factor on the loads of a case at which the model carries the amps that the crew reads off,
 * summed over the phases that are given; null where no load does. Where two do, as with generation
 * beyond the bank, it is the greater one.
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
  const bench = benchOf(feeder, bank)
  if (bench.status === 'not solved') return null
  const read = bench.phases.filter((phase) => given.amps[phase] !== undefined)
  if (read.length === 0) return null
  const loadCase = caseOf(feeder, given.caseId)
  const wantedA = read.reduce((sum, phase) => sum + (given.amps[phase] ?? 0), 0)
  const isMore = (amps: number | null) => amps === null || amps >= wantedA
  const ampsAt = (factor: number): number | null => {
    const solution = bench.solve(scaled(loadCase, factor), given.taps)
    if (solution.status === 'not solved') return null
    return read.reduce((sum, phase) => sum + magnitudeOf(solution.units[phase]), 0)
  }
  const bracket = lastRise(ampsAt, isMore)
  if (!bracket) return isNear(ampsAt(0), wantedA) ? 0 : null
  let [low, high] = bracket
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (low + high) / 2
    if (isMore(ampsAt(middle))) high = middle
    else low = middle
  }
  const nearest = [low, high].find((factor) => isNear(ampsAt(factor), wantedA))
  return nearest ?? null
}

/** The last step of factors over which the amps rise past what is wanted; null where none does. */
function lastRise(
  ampsAt: (factor: number) => number | null,
  isMore: (amps: number | null) => boolean,
): [number, number] | null {
  let found: [number, number] | null = null
  let before = isMore(ampsAt(0))
  for (let look = 1; look <= LOOKS; look++) {
    const factor = (look / LOOKS) * MOST_LOAD_FACTOR
    const amps = ampsAt(factor)
    const now = isMore(amps)
    if (now && !before) found = [((look - 1) / LOOKS) * MOST_LOAD_FACTOR, factor]
    if (amps === null) return found
    before = now
  }
  return found
}

function isNear(amps: number | null, wantedA: number): boolean {
  const toleranceA = Math.max(LEAST_TOLERANCE_A, wantedA * AMPS_TOLERANCE)
  return amps !== null && Math.abs(amps - wantedA) <= toleranceA
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
