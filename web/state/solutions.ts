import { keepPreviousData, useQuery } from '@tanstack/react-query'
import type { CaseSolution } from '#domain/electrical/solution.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import { callSolver } from '../workers/solver-client.ts'
import { type OpenFeeder, useFeeder } from './feeder.tsx'
import { useSelection } from './selection.ts'
import { shownBanks, useTrial } from './trial.ts'

let heldKey: string | null = null

async function solve(
  { feeder, version }: OpenFeeder,
  taps: 'controlled' | 'fixed',
  extraBanks: readonly Regulator[],
  signal: AbortSignal,
): Promise<CaseSolution[]> {
  const key = `${feeder.header.id}@${version}`
  if (heldKey !== key) {
    heldKey = key
    await callSolver('hold', [key, feeder])
  }
  return callSolver('solve', [key, { taps, extraBanks: [...extraBanks] }], signal)
}

/** All load cases, solved in the browser, with these banks added. */
export function useSolutions(banks: readonly Regulator[]) {
  const open = useFeeder()
  const { taps } = useSelection()
  return useQuery({
    queryKey: ['solve', open.feeder.header.id, open.version, taps, banks],
    queryFn: ({ signal }) => solve(open, taps, banks, signal),
    placeholderData: keepPreviousData,
    staleTime: Number.POSITIVE_INFINITY,
    gcTime: 60_000,
    networkMode: 'always',
  })
}

const NO_BANKS: readonly Regulator[] = []

/** The line as it stands. */
export function useBefore() {
  return useSolutions(NO_BANKS)
}

/** What map and strip show: the line with the banks under the pointer, chosen, or none. */
export function useShown() {
  return useSolutions(shownBanks(useTrial()))
}

/** Id of the load case that is shown: the one in the address, or the feeder's first. */
export function useShownCaseId(): string {
  const { case: wanted } = useSelection()
  const { cases } = useFeeder().feeder.header
  const found = cases.find(({ id }) => id === wanted) ?? cases[0]
  if (!found) throw new Error('Expected a feeder with at least one load case.')
  return found.id
}
