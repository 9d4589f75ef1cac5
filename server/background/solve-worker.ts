import type { CaseSolution } from '#domain/electrical/solution.ts'
import { type SolveOptions, solveFeeder } from '#domain/electrical/solve-feeder.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'

export interface SolvingJob {
  readonly feeder: Feeder
  readonly options: SolveOptions
}

/** Runs in a worker thread. Apart from the long jobs, so that the thread is there at once. */
export default function solve({ feeder, options }: SolvingJob): CaseSolution[] {
  return solveFeeder(feeder, options)
}
