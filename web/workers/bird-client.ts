import type { Programme, ProgrammeRequest } from '#domain/avian/programme/programme.ts'
import type { Assessed, BirdMarks, BirdPlace } from './bird-bench.ts'
import { type CallOptions, WorkerCalls } from './worker-calls.ts'

const birds = new WorkerCalls(
  'The assessment of the poles',
  () => new Worker(new URL('./bird-worker.ts', import.meta.url), { type: 'module' }),
)

let handed: { readonly place: BirdPlace; readonly start: number } | null = null

/** The place travels once to each worker; it is told from others by being the same object. */
const withPlace = (place: BirdPlace, rest: readonly unknown[]) => (start: number) => {
  const isThere = handed?.place === place && handed.start === start
  handed = { place, start }
  return [isThere ? null : place, ...rest]
}

/**
 * Assesses and ranks all poles. Answers come in the order of asking, and each tells what changed
 * since the one before: none may be left out.
 */
export function assessBirds(
  place: BirdPlace,
  marks: BirdMarks,
  options?: CallOptions,
): Promise<Assessed> {
  return birds.call('assess', withPlace(place, [marks]), options) as Promise<Assessed>
}

/** Chooses poles and measures for a budget. */
export function planBirdProgramme(
  place: BirdPlace,
  marks: BirdMarks,
  request: ProgrammeRequest,
  options?: CallOptions,
): Promise<Programme> {
  return birds.call('plan', withPlace(place, [marks, request]), options) as Promise<Programme>
}
