import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { Job } from '#contract/jobs.ts'
import type { RouteInput } from '#contract/route.ts'
import type { routes } from '#contract/routes.ts'
import { call } from './call.ts'

export type BodyOf<Name extends 'draftJob' | 'changeJob' | 'moveJob'> = RouteInput<
  (typeof routes)[Name]
>['body']

/** Jobs that are not deleted, due first; of all feeders where none is named. */
export function useJobs(feederId: string | null, isWanted = true) {
  return useQuery({
    queryKey: ['jobs', feederId],
    queryFn: ({ signal }) =>
      call('listJobs', { query: feederId === null ? {} : { feederId } }, signal),
    enabled: isWanted,
  })
}

/** A job with its plan, its entries and what was left at the poles. */
export function useJob(jobId: string | null) {
  return useQuery({
    queryKey: ['job', jobId],
    queryFn: ({ signal }) => call('getJob', { params: { jobId: jobId ?? '' } }, signal),
    enabled: jobId !== null,
  })
}

/** A job in the version that the person saw. */
export type SeenJob = Pick<Job, 'id' | 'version'>

/** Drafting, changing, moving, deleting and bringing back; each refreshes the lists it stands in. */
export function useJobChanges(feederId: string) {
  const client = useQueryClient()
  const onSettled = async () => {
    await client.invalidateQueries({ queryKey: ['jobs'] })
    await client.invalidateQueries({ queryKey: ['job'] })
    await client.invalidateQueries({ queryKey: ['deleted', feederId] })
    await client.invalidateQueries({ queryKey: ['history', 'job'] })
  }
  return {
    draft: useMutation({
      mutationFn: (body: BodyOf<'draftJob'>) => call('draftJob', { params: { feederId }, body }),
      onSettled,
    }),
    change: useMutation({
      mutationFn: ({ id, body }: { id: string; body: BodyOf<'changeJob'> }) =>
        call('changeJob', { params: { jobId: id }, body }),
      onSettled,
    }),
    move: useMutation({
      mutationFn: ({ id, body }: { id: string; body: BodyOf<'moveJob'> }) =>
        call('moveJob', { params: { jobId: id }, body }),
      onSettled,
    }),
    remove: useMutation({
      mutationFn: ({ id, version }: SeenJob) =>
        call('deleteJob', { params: { jobId: id }, query: { version } }),
      onSettled,
    }),
    restore: useMutation({
      mutationFn: ({ id, version }: SeenJob) =>
        call('restoreJob', { params: { jobId: id }, query: { version } }),
      onSettled,
    }),
  }
}
