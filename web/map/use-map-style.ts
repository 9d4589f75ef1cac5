import { useQuery } from '@tanstack/react-query'
import type { StyleSpecification } from 'maplibre-gl'
import { useSettings } from '../api/feeders.ts'
import { BLANK_STYLE, withSlots } from './blank-style.ts'

async function fetchStyle(url: string): Promise<StyleSpecification> {
  const answer = await fetch(url)
  if (!answer.ok) throw new Error(`The map style at ${url} answers ${answer.status}.`)
  return withSlots((await answer.json()) as StyleSpecification)
}

/** Style of the map: the utility's own where the server names one that answers, else the built-in. */
export function useMapStyle(): StyleSpecification | null {
  const settings = useSettings()
  const url = settings.data?.mapStyleUrl ?? null
  const own = useQuery({
    queryKey: ['map-style', url],
    queryFn: () => fetchStyle(url ?? ''),
    enabled: url !== null,
    staleTime: Number.POSITIVE_INFINITY,
  })
  if (settings.isPending || (url !== null && own.isPending)) return null
  return own.data ?? BLANK_STYLE
}
