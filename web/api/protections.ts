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

export function useProtectionHistory(feederId: string, protectionId: string | null) {
  return useQuery({
    queryKey: ['protection-history', feederId, protectionId],
    queryFn: ({ signal }) =>
      call(
        'getProtectionHistory',
        { params: { feederId, protectionId: protectionId ?? '' } },
        signal,
      ),
    enabled: protectionId !== null,
  })
}

export function useProtectionChanges(feederId: string) {
  const client = useQueryClient()
  const onSettled = async () => {
    await client.invalidateQueries({ queryKey: ['protections', feederId] })
    await client.invalidateQueries({ queryKey: ['protection-history', feederId] })
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
      mutationFn: ({ id, version }: Pick<ProtectionRecord, 'id' | 'version'>) =>
        call('deleteProtection', { ...paramsOf(id), query: { version } }),
      onSettled,
    }),
    restore: useMutation({
      mutationFn: (id: string) => call('restoreProtection', paramsOf(id)),
      onSettled,
    }),
  }
}
