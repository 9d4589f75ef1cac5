import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { ChoosePoleTopBody, PoleTopRecord } from '#contract/pole-tops.ts'
import { call } from './call.ts'

/** What people chose or measured of the pole tops of a feeder. */
export function usePoleTops(feederId: string) {
  return useQuery({
    queryKey: ['pole-tops', feederId],
    queryFn: ({ signal }) => call('listPoleTops', { params: { feederId } }, signal),
  })
}

/** One in the version that the person saw; its id is that of the pole. */
export type SeenPoleTop = Pick<PoleTopRecord, 'id' | 'version'>

export function usePoleTopChanges(feederId: string) {
  const client = useQueryClient()
  const onSettled = async () => {
    await client.invalidateQueries({ queryKey: ['pole-tops', feederId] })
    await client.invalidateQueries({ queryKey: ['deleted', feederId] })
    await client.invalidateQueries({ queryKey: ['history', 'pole-top'] })
  }
  const paramsOf = (poleId: string) => ({ params: { feederId, poleId } })
  return {
    choose: useMutation({
      mutationFn: ({ poleId, body }: { poleId: string; body: ChoosePoleTopBody }) =>
        call('choosePoleTop', { ...paramsOf(poleId), body }),
      onSettled,
    }),
    remove: useMutation({
      mutationFn: ({ id, version }: SeenPoleTop) =>
        call('deletePoleTop', { ...paramsOf(id), query: { version } }),
      onSettled,
    }),
  }
}
