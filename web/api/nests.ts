import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { ChangeNestBody, NestBody, NestRecord } from '#contract/nests.ts'
import { call } from './call.ts'

/** Nests at a feeder as they stand in the record now; refused to those who may not see them. */
export function useNests(feederId: string, isWanted = true) {
  return useQuery({
    queryKey: ['nests', feederId],
    queryFn: ({ signal }) => call('listNests', { params: { feederId } }, signal),
    enabled: isWanted,
  })
}

/** One in the version that the person saw. */
export type SeenNest = Pick<NestRecord, 'id' | 'version'>

export function useNestChanges(feederId: string) {
  const client = useQueryClient()
  const onSettled = async () => {
    await client.invalidateQueries({ queryKey: ['nests', feederId] })
    await client.invalidateQueries({ queryKey: ['deleted', feederId] })
    await client.invalidateQueries({ queryKey: ['history', 'nest'] })
  }
  const paramsOf = (nestId: string) => ({ params: { feederId, nestId } })
  return {
    add: useMutation({
      mutationFn: (body: NestBody) => call('addNest', { params: { feederId }, body }),
      onSettled,
    }),
    change: useMutation({
      mutationFn: ({ id, body }: { id: string; body: ChangeNestBody }) =>
        call('changeNest', { ...paramsOf(id), body }),
      onSettled,
    }),
    remove: useMutation({
      mutationFn: ({ id, version }: SeenNest) =>
        call('deleteNest', { ...paramsOf(id), query: { version } }),
      onSettled,
    }),
    restore: useMutation({
      mutationFn: ({ id, version }: SeenNest) =>
        call('restoreNest', { ...paramsOf(id), query: { version } }),
      onSettled,
    }),
  }
}
