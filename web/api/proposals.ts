import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { RouteInput } from '#contract/route.ts'
import type { routes } from '#contract/routes.ts'
import { call } from './call.ts'

type SaveInput = RouteInput<(typeof routes)['saveProposal']>

export function useProposals(feederId: string) {
  return useQuery({
    queryKey: ['proposals', feederId],
    queryFn: ({ signal }) => call('listProposals', { params: { feederId } }, signal),
  })
}

export function useProposal(proposalId: string | null) {
  return useQuery({
    queryKey: ['proposal', proposalId],
    queryFn: ({ signal }) =>
      call('getProposal', { params: { proposalId: proposalId ?? '' } }, signal),
    enabled: proposalId !== null,
  })
}

/** Saving, deleting and bringing back; each refreshes the list of the feeder. */
export function useProposalChanges(feederId: string) {
  const client = useQueryClient()
  const onSuccess = async ({ id }: { readonly id: string }) => {
    await client.invalidateQueries({ queryKey: ['proposals', feederId] })
    await client.invalidateQueries({ queryKey: ['proposal', id] })
  }
  return {
    save: useMutation({
      mutationFn: (body: SaveInput['body']) => call('saveProposal', { params: { feederId }, body }),
      onSuccess,
    }),
    remove: useMutation({
      mutationFn: (proposalId: string) => call('deleteProposal', { params: { proposalId } }),
      onSuccess,
    }),
    restore: useMutation({
      mutationFn: (proposalId: string) => call('restoreProposal', { params: { proposalId } }),
      onSuccess,
    }),
  }
}
