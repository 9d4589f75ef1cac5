import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { RouteInput } from '#contract/route.ts'
import type { routes } from '#contract/routes.ts'
import { call } from './call.ts'

type PutBody = RouteInput<(typeof routes)['putSequence']>['body']

/** The orders of steps: those that come with the program, or what the utility has set in their place. */
export function useSequences(isWanted = true) {
  return useQuery({
    queryKey: ['step-sequences'],
    queryFn: ({ signal }) => call('listSequences', {}, signal),
    enabled: isWanted,
  })
}

export function usePutSequence() {
  const onSettled = useSettled()
  return useMutation({
    mutationFn: (body: PutBody) =>
      call('putSequence', { params: { sequenceId: body.sequence.id }, body }),
    onSettled,
  })
}

/** Takes away what the utility has set, in the version that the person saw. */
export function useWithdrawSequence() {
  const onSettled = useSettled()
  return useMutation({
    mutationFn: ({ id, version }: { id: string; version: number }) =>
      call('withdrawSequence', { params: { sequenceId: id }, query: { version } }),
    onSettled,
  })
}

function useSettled() {
  const client = useQueryClient()
  return async () => {
    await client.invalidateQueries({ queryKey: ['step-sequences'] })
    await client.invalidateQueries({ queryKey: ['history', 'step-sequence'] })
  }
}
