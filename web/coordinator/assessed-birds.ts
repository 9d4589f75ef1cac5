import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import type { Exposure, RankedPole } from '#domain/avian/exposure/exposure.ts'
import { shareValue, useShared } from '../device/shared-value.ts'
import type { Assessed, BirdMarks, BirdPlace } from '../workers/bird-bench.ts'
import { assessBirds } from '../workers/bird-client.ts'
import type { Progress } from '../workers/messages.ts'

export interface AssessedBirds {
  readonly feederId: string
  readonly assessments: ReadonlyMap<string, PoleAssessment>
  readonly exposures: ReadonlyMap<string, Exposure>
  readonly ranked: readonly RankedPole[]
}

interface State {
  /** What the last answer left; of another feeder as long as the new one has none. */
  readonly assessed: AssessedBirds | null
  readonly progress: Progress | null
  readonly error: Error | null
}

const store = shareValue<State>({ assessed: null, progress: null, error: null })
let asked: { readonly place: BirdPlace; readonly marks: BirdMarks } | null = null
let newer = new AbortController()

/** Asks for an assessment unless just this record was asked about; the answer goes to all screens. */
export async function assess(place: BirdPlace, marks: BirdMarks): Promise<void> {
  if (asked && asked.place === place && asked.marks === marks) return
  const own = { place, marks }
  asked = own
  newer.abort()
  newer = new AbortController()
  try {
    const answer = await assessBirds(place, marks, {
      signal: newer.signal,
      onProgress: (progress) => store.set({ ...store.get(), progress, error: null }),
    })
    const assessed = mergeAssessed(store.get().assessed, place.feeder.header.id, answer)
    store.set({ assessed, progress: null, error: null })
  } catch (error) {
    if (asked !== own) return
    asked = null
    store.set({ ...store.get(), progress: null, error: asError(error) })
  }
}

/** An answer that tells only what changed is laid over what was known. */
export function mergeAssessed(
  before: AssessedBirds | null,
  feederId: string,
  { isWhole, assessments, exposures, ranked }: Assessed,
): AssessedBirds {
  const known = isWhole || before?.feederId !== feederId ? [] : before.assessments
  return {
    feederId,
    assessments: new Map([
      ...known,
      ...assessments.map((assessment) => [assessment.poleId, assessment] as const),
    ]),
    exposures: new Map(exposures.map((exposure) => [exposure.poleId, exposure])),
    ranked,
  }
}

export function useAssessedBirds(): State {
  return useShared(store)
}

const asError = (error: unknown): Error =>
  error instanceof Error ? error : new Error(String(error))
