import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type {
  ChangeProgrammeBody,
  KeepProgrammeBody,
  ProgrammeRecord,
} from '#contract/programmes.ts'
import { call } from './call.ts'

/** Kept programmes of a feeder; refused to those who may not see nests. */
export function useProgrammes(feederId: string, isWanted = true) {
  return useQuery({
    queryKey: ['programmes', feederId],
    queryFn: ({ signal }) => call('listProgrammes', { params: { feederId } }, signal),
    enabled: isWanted,
  })
}

/** One in the version that the person saw. */
export type SeenProgramme = Pick<ProgrammeRecord, 'id' | 'version'>

export function useProgrammeChanges(feederId: string) {
  const client = useQueryClient()
  const onSettled = async () => {
    await client.invalidateQueries({ queryKey: ['programmes', feederId] })
    await client.invalidateQueries({ queryKey: ['deleted', feederId] })
    await client.invalidateQueries({ queryKey: ['history', 'programme'] })
  }
  const paramsOf = (programmeId: string) => ({ params: { feederId, programmeId } })
  return {
    keep: useMutation({
      mutationFn: (body: KeepProgrammeBody) =>
        call('keepProgramme', { params: { feederId }, body }),
      onSettled,
    }),
    change: useMutation({
      mutationFn: ({ id, body }: { id: string; body: ChangeProgrammeBody }) =>
        call('changeProgramme', { ...paramsOf(id), body }),
      onSettled,
    }),
    remove: useMutation({
      mutationFn: ({ id, version }: SeenProgramme) =>
        call('deleteProgramme', { ...paramsOf(id), query: { version } }),
      onSettled,
    }),
    restore: useMutation({
      mutationFn: ({ id, version }: SeenProgramme) =>
        call('restoreProgramme', { ...paramsOf(id), query: { version } }),
      onSettled,
    }),
  }
}
