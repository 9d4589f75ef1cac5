import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { TakeInBody } from '#contract/feeders.ts'
import { call } from './call.ts'

export function useSettings() {
  return useQuery({
    queryKey: ['settings'],
    queryFn: ({ signal }) => call('getSettings', {}, signal),
    staleTime: Number.POSITIVE_INFINITY,
  })
}

export function useFeederList() {
  return useQuery({
    queryKey: ['feeders'],
    queryFn: ({ signal }) => call('listFeeders', {}, signal),
  })
}

/** A whole feeder, in its newest version. */
export function useFeederAnswer(feederId: string | null) {
  return useQuery({
    queryKey: ['feeder', feederId],
    queryFn: ({ signal }) => call('getFeeder', { params: { feederId: feederId ?? '' } }, signal),
    enabled: feederId !== null,
    staleTime: Number.POSITIVE_INFINITY,
  })
}

export function useFindings(feederId: string) {
  return useQuery({
    queryKey: ['findings', feederId],
    queryFn: ({ signal }) => call('getFindings', { params: { feederId } }, signal),
  })
}

/** Base map of a place; asks for nothing where the feeder lies in none. */
export function useLand(placeId: string | null) {
  return useQuery({
    queryKey: ['land', placeId],
    queryFn: ({ signal }) => call('getLand', { params: { placeId: placeId ?? '' } }, signal),
    enabled: placeId !== null,
    staleTime: Number.POSITIVE_INFINITY,
  })
}

export function useTakeIn() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: TakeInBody) => call('takeInFeeder', { body }),
    onSuccess: async ({ id }) => {
      await client.invalidateQueries({ queryKey: ['feeders'] })
      await client.invalidateQueries({ queryKey: ['feeder', id] })
      await client.invalidateQueries({ queryKey: ['findings', id] })
    },
  })
}
