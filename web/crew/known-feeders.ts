import { useQueries } from '@tanstack/react-query'
import { useMemo } from 'react'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import { call } from '../api/call.ts'
import { useJobs } from '../api/jobs.ts'
import { useOnDevice } from '../api/on-device.ts'
import { useFeeder } from '../state/feeder.tsx'

/** The open feeder first, then those of the crew's jobs and those that are kept on the device. */
export function useKnownFeeders(): readonly Feeder[] {
  const open = useFeeder().feeder
  const jobs = useJobs(null).data
  const kept = useOnDevice()
  const openId = open.header.id
  const others = useMemo(() => {
    const wanted = (jobs ?? []).filter(({ state }) => state !== 'closed')
    const ids = [...wanted, ...kept].map(({ feederId }) => feederId)
    return [...new Set(ids)].filter((id) => id !== openId)
  }, [jobs, kept, openId])
  const arrived = useQueries({
    queries: others.map((feederId) => ({
      queryKey: ['feeder', feederId],
      queryFn: ({ signal }: { readonly signal: AbortSignal }) =>
        call('getFeeder', { params: { feederId } }, signal),
      staleTime: Number.POSITIVE_INFINITY,
    })),
    combine: dataOf,
  })
  return useMemo(() => [open, ...arrived], [open, arrived])
}

function dataOf(
  results: readonly { readonly data: { readonly feeder: Feeder } | undefined }[],
): readonly Feeder[] {
  return results.flatMap(({ data }) => (data ? [data.feeder] : []))
}

const positions = new WeakMap<Feeder, ReadonlyMap<string, Position>>()

/** Where a pole of one of these feeders stands; undefined where it is not known on this device. */
export function positionOfPole(
  feeders: readonly Feeder[],
  feederId: string,
  poleId: string,
): Position | undefined {
  const feeder = feeders.find(({ header }) => header.id === feederId)
  if (!feeder) return undefined
  let known = positions.get(feeder)
  if (!known) {
    known = new Map(feeder.poles.map(({ id, at }) => [id, at]))
    positions.set(feeder, known)
  }
  return known.get(poleId)
}
