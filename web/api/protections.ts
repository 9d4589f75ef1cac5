import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type {
  ChangeProtectionBody,
  ProtectionBody,
  ProtectionRecord,
} from '#contract/protections.ts'
import { call } from './call.ts'

/** Guards, covers and perches of a feeder as they stand in the record now. */
export function useProtections(feederId: string) {
  return useQuery({
    queryKey: ['protections', feederId],
    queryFn: ({ signal }) => call('listProtections', { params: { feederId } }, signal),
  })
}

/** An item in the version that the person saw. */
export type SeenProtection = Pick<ProtectionRecord, 'id' | 'version'>

export function useProtectionChanges(feederId: string) {
  const client = useQueryClient()
  const onSettled = async () => {
    await client.invalidateQueries({ queryKey: ['protections', feederId] })
    await client.invalidateQueries({ queryKey: ['deleted', feederId] })
    await client.invalidateQueries({ queryKey: ['history', 'protection'] })
  }
  const paramsOf = (protectionId: string) => ({ params: { feederId, protectionId } })
  return {
    add: useMutation({
      mutationFn: (body: ProtectionBody) => call('addProtection', { params: { feederId }, body }),
      onSettled,
    }),
    change: useMutation({
      mutationFn: ({ id, body }: { id: string; body: ChangeProtectionBody }) =>
        call('changeProtection', { ...paramsOf(id), body }),
      onSettled,
    }),
    remove: useMutation({
      mutationFn: ({ id, version }: SeenProtection) =>
        call('deleteProtection', { ...paramsOf(id), query: { version } }),
      onSettled,
    }),
    restore: useMutation({
      mutationFn: ({ id, version }: SeenProtection) =>
        call('restoreProtection', { ...paramsOf(id), query: { version } }),
      onSettled,
    }),
  }
}
