import { useQuery } from '@tanstack/react-query'
import type { BankWork } from '#domain/jobs/job-plan.ts'
import { type OpenFeeder, useFeeder } from '../../state/feeder.tsx'
import { callSolver } from '../../workers/solver-client.ts'
import type { ExpectedForReadOff, ReadOff } from '../../workers/solver-functions.ts'

/**
 * What meters should show for what is read off, solved on this device; nothing asked where it is
 * null. What belongs to an earlier reading is never shown beside a newer one.
 */
export function useExpectedFor(bank: BankWork, readOff: ReadOff | null) {
  const open = useFeeder()
  const key = `${open.feeder.header.id}@${open.version}`
  return useQuery({
    queryKey: ['expected-for', key, bank, readOff],
    queryFn: ({ signal }) => solve(key, open, bank, readOff, signal),
    enabled: readOff !== null,
    staleTime: Number.POSITIVE_INFINITY,
    gcTime: 60_000,
    networkMode: 'always',
  })
}

async function solve(
  key: string,
  { feeder }: OpenFeeder,
  bank: BankWork,
  readOff: ReadOff | null,
  signal: AbortSignal,
): Promise<ExpectedForReadOff> {
  if (!readOff) throw new Error('Expected something that was read off.')
  if (!(await callSolver('isHeld', [key]))) await callSolver('hold', [key, feeder])
  return callSolver('expectedFor', [key, bank, readOff], signal)
}
