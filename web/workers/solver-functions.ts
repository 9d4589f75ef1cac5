import type { CaseSolution } from '#domain/electrical/solution.ts'
import { type SolveOptions, solveFeeder } from '#domain/electrical/solve-feeder.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'

/** Feeders that were handed over, so that they travel to the worker once. */
const held = new Map<string, Feeder>()

/** What the worker does: domain functions by name. */
export const solverFunctions = {
  hold(key: string, feeder: Feeder): void {
    held.clear()
    held.set(key, feeder)
  },
  solve(key: string, options: SolveOptions): CaseSolution[] {
    const feeder = held.get(key)
    if (!feeder) throw new Error(`Expected feeder "${key}" to be held by the worker.`)
    return solveFeeder(feeder, options)
  },
}

export type SolverFunctions = typeof solverFunctions
