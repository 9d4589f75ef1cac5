import { useQuery } from '@tanstack/react-query'
import type { StyleSpecification } from 'maplibre-gl'
import { useSettings } from '../api/feeders.ts'
import { BLANK_STYLE, withSlots } from './blank-style.ts'

export interface MapStyle {
  readonly style: StyleSpecification
  /** True where the utility's own style is drawn, so that the built-in land must not cover it. */
  readonly isOwn: boolean
  /** Why the utility's own style is not drawn although one is configured. */
  readonly fault: string | null
}

async function fetchStyle(url: string): Promise<StyleSpecification> {
  const answer = await fetch(url)
  if (!answer.ok) throw new Error(`The map style at ${url} answers ${answer.status}.`)
  return withSlots((await answer.json()) as StyleSpecification)
}

/** Style of the map: the utility's own where the server names one that answers, else the built-in. */
export function useMapStyle(): MapStyle | null {
  const settings = useSettings()
  const url = settings.data?.mapStyleUrl ?? null
  const own = useQuery({
    queryKey: ['map-style', url],
    queryFn: () => fetchStyle(url ?? ''),
    enabled: url !== null,
    staleTime: Number.POSITIVE_INFINITY,
    retry: 1,
  })
  if (settings.isPending || (url !== null && own.isPending)) return null
  if (own.data) return { style: own.data, isOwn: true, fault: null }
  return { style: BLANK_STYLE, isOwn: false, fault: own.error?.message ?? null }
}
