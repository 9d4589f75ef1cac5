import type { Feeder } from '#domain/feeder/feeder.ts'
import type { ChosenPlace, PlacesJudged } from '#domain/siting/judge-places.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import { WorkerCalls } from './worker-calls.ts'

const siting = new WorkerCalls(
  'The judgement of the place',
  () => new Worker(new URL('./siting-worker.ts', import.meta.url), { type: 'module' }),
)

let handed: { readonly feeder: Feeder; readonly start: number } | null = null

/**
 * Judges banks where a person put them: size, settings, figures and cautions. The feeder travels
 * once to each worker; it is told from others by being the same object.
 */
export function judgeChosenPlaces(
  feeder: Feeder,
  request: SiteRequest,
  places: readonly ChosenPlace[],
  signal?: AbortSignal,
): Promise<PlacesJudged> {
  const args = (start: number) => {
    const isThere = handed?.feeder === feeder && handed.start === start
    handed = { feeder, start }
    return [isThere ? null : feeder, request, places]
  }
  return siting.call('judge', args, { signal }) as Promise<PlacesJudged>
}
