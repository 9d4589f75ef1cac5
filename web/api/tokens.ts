import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { MakeTokenBody } from '#contract/people.ts'
import { call } from './call.ts'

const TOKENS = ['tokens']

export function useTokens() {
  return useQuery({
    queryKey: TOKENS,
    queryFn: ({ signal }) => call('listTokens', {}, signal),
    staleTime: 0,
  })
}

export function useTokenChanges() {
  const client = useQueryClient()
  const onSettled = () => client.invalidateQueries({ queryKey: TOKENS })
  return {
    make: useMutation({
      mutationFn: (body: MakeTokenBody) => call('makeToken', { body }),
      onSettled,
    }),
    revoke: useMutation({
      mutationFn: (tokenId: string) => call('revokeToken', { params: { tokenId } }),
      onSettled,
    }),
  }
}
