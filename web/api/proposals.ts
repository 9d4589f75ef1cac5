import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { ChangeProposalBody, SavedProposal } from '#contract/proposals.ts'
import type { RouteInput } from '#contract/route.ts'
import type { routes } from '#contract/routes.ts'
import { call } from './call.ts'

type SaveInput = RouteInput<(typeof routes)['saveProposal']>

/** A kept proposal in the version that the person saw. */
export type SeenProposal = Pick<SavedProposal, 'id' | 'version'>

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

/** Saving, changing, deleting and bringing back; each refreshes the list of the feeder. */
export function useProposalChanges(feederId: string) {
  const client = useQueryClient()
  const onSettled = async () => {
    await client.invalidateQueries({ queryKey: ['proposals', feederId] })
    await client.invalidateQueries({ queryKey: ['proposal'] })
    await client.invalidateQueries({ queryKey: ['deleted', feederId] })
    await client.invalidateQueries({ queryKey: ['history', 'proposal'] })
  }
  return {
    save: useMutation({
      mutationFn: (body: SaveInput['body']) => call('saveProposal', { params: { feederId }, body }),
      onSettled,
    }),
    change: useMutation({
      mutationFn: ({ id, body }: { id: string; body: ChangeProposalBody }) =>
        call('changeProposal', { params: { proposalId: id }, body }),
      onSettled,
    }),
    remove: useMutation({
      mutationFn: ({ id, version }: SeenProposal) =>
        call('deleteProposal', { params: { proposalId: id }, query: { version } }),
      onSettled,
    }),
    restore: useMutation({
      mutationFn: ({ id, version }: SeenProposal) =>
        call('restoreProposal', { params: { proposalId: id }, query: { version } }),
      onSettled,
    }),
  }
}
