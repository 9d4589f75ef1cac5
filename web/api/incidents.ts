import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { ChangeIncidentBody, IncidentBody, IncidentRecord } from '#contract/incidents.ts'
import { call } from './call.ts'

/** Finds at a feeder as they stand in the record now; refused to those who may not see them. */
export function useIncidents(feederId: string, isWanted = true) {
  return useQuery({
    queryKey: ['incidents', feederId],
    queryFn: ({ signal }) => call('listIncidents', { params: { feederId } }, signal),
    enabled: isWanted,
  })
}

/** One in the version that the person saw. */
export type SeenIncident = Pick<IncidentRecord, 'id' | 'version'>

export function useIncidentChanges(feederId: string) {
  const client = useQueryClient()
  const onSettled = async () => {
    await client.invalidateQueries({ queryKey: ['incidents', feederId] })
    await client.invalidateQueries({ queryKey: ['deleted', feederId] })
    await client.invalidateQueries({ queryKey: ['history', 'incident'] })
  }
  const paramsOf = (incidentId: string) => ({ params: { feederId, incidentId } })
  return {
    add: useMutation({
      mutationFn: (body: IncidentBody) => call('addIncident', { params: { feederId }, body }),
      onSettled,
    }),
    change: useMutation({
      mutationFn: ({ id, body }: { id: string; body: ChangeIncidentBody }) =>
        call('changeIncident', { ...paramsOf(id), body }),
      onSettled,
    }),
    remove: useMutation({
      mutationFn: ({ id, version }: SeenIncident) =>
        call('deleteIncident', { ...paramsOf(id), query: { version } }),
      onSettled,
    }),
    restore: useMutation({
      mutationFn: ({ id, version }: SeenIncident) =>
        call('restoreIncident', { ...paramsOf(id), query: { version } }),
      onSettled,
    }),
  }
}
