import type { ByPhase, CaseSolution } from '#domain/electrical/solution.ts'
import { type SolveOptions, solveFeeder } from '#domain/electrical/solve-feeder.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { expectedAt, loadFactorFor } from '#domain/jobs/expected-readings.ts'
import type { BankWork, ExpectedReading } from '#domain/jobs/job-plan.ts'

/** Feeders that were handed over last, so that they travel to the worker once. */
const held = new Map<string, Feeder>()
const MOST_HELD = 3

/** What a crew reads off at a bank. */
export interface ReadOff {
  readonly caseId: string
  readonly taps: ByPhase<number>
  readonly amps: ByPhase<number>
}

/** What meters should show when this is read off, or why that cannot be said. */
export type ExpectedForReadOff =
  | {
      readonly status: 'solved'
      /** Load of the feeder as a share of the case. */
      readonly loadFactor: number
      readonly readings: readonly ExpectedReading[]
    }
  | { readonly status: 'not solved'; readonly what: string }

/** What the worker does: domain functions by name. */
export const solverFunctions = {
  hold(key: string, feeder: Feeder): void {
    held.delete(key)
    held.set(key, feeder)
    const [oldest] = held.keys()
    if (held.size > MOST_HELD && oldest !== undefined) held.delete(oldest)
  },
  isHeld(key: string): boolean {
    return held.has(key)
  },
  solve(key: string, options: SolveOptions): CaseSolution[] {
    return solveFeeder(heldFeeder(key), options)
  },
  expectedFor(key: string, bank: BankWork, readOff: ReadOff): ExpectedForReadOff {
    const feeder = heldFeeder(key)
    const loadFactor = loadFactorFor(feeder, bank, readOff)
    if (loadFactor === null) {
      return {
        status: 'not solved',
        what: 'No load of this feeder makes the model carry that current at these taps. Read the amps again, or compare with the cases above.',
      }
    }
    const { caseId, taps } = readOff
    const expected = expectedAt(feeder, bank, { caseId, loadFactor, taps })
    return expected.status === 'solved' ? { ...expected, loadFactor } : expected
  },
}

function heldFeeder(key: string): Feeder {
  const feeder = held.get(key)
  if (!feeder) throw new Error(`Expected feeder "${key}" to be held by the worker.`)
  return feeder
}

export type SolverFunctions = typeof solverFunctions
