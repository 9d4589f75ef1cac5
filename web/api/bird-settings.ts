import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { ChangeBirdSettingsBody } from '#contract/bird-settings.ts'
import { call } from './call.ts'

/** What the bird work of the utility goes by; version 0 where nothing was set yet. */
export function useBirdSettings() {
  return useQuery({
    queryKey: ['bird-settings'],
    queryFn: ({ signal }) => call('getBirdSettings', {}, signal),
  })
}

export function useBirdSettingsChange() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: ChangeBirdSettingsBody) => call('changeBirdSettings', { body }),
    onSettled: async () => {
      await client.invalidateQueries({ queryKey: ['bird-settings'] })
      await client.invalidateQueries({ queryKey: ['history', 'bird-settings'] })
    },
  })
}
