import { useQuery } from '@tanstack/react-query'
import type { ChosenPlace } from '#domain/siting/judge-places.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import { useFeeder } from '../state/feeder.tsx'
import { judgeChosenPlaces } from '../workers/siting-client.ts'

/** Judges banks where a person put them; idle as long as there is nothing to judge. */
export function useJudgedPlaces(
  asked: { readonly request: SiteRequest; readonly places: readonly ChosenPlace[] } | null,
) {
  const { feeder, version } = useFeeder()
  return useQuery({
    queryKey: ['judge places', feeder.header.id, version, asked],
    queryFn: ({ signal }) =>
      asked && judgeChosenPlaces(feeder, asked.request, asked.places, signal),
    enabled: asked !== null,
    staleTime: Number.POSITIVE_INFINITY,
    gcTime: 60_000,
    networkMode: 'always',
  })
}
