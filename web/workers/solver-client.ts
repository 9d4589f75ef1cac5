import type { SolverFunctions } from './solver-functions.ts'
import { WorkerCalls } from './worker-calls.ts'

const solver = new WorkerCalls(
  'The solver',
  () => new Worker(new URL('./solver-worker.ts', import.meta.url), { type: 'module' }),
)

/** Calls a function of the solver's worker. */
export function callSolver<Name extends keyof SolverFunctions>(
  name: Name,
  args: Parameters<SolverFunctions[Name]>,
  signal?: AbortSignal,
): Promise<ReturnType<SolverFunctions[Name]>> {
  return solver.call(name, args, { signal }) as Promise<ReturnType<SolverFunctions[Name]>>
}
