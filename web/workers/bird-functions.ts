import type { Programme, ProgrammeRequest } from '#domain/avian/programme/programme.ts'
import type { TellProgress } from './answer-calls.ts'
import { type Assessed, BirdBench, type BirdMarks, type BirdPlace } from './bird-bench.ts'

const bench = new BirdBench()

/** What the worker does. A place is null where it is the one that was handed over last. */
export const birdFunctions = {
  assess(place: BirdPlace | null, marks: BirdMarks, tell: TellProgress): Assessed {
    if (place) bench.hold(place)
    return bench.assess(marks, tell)
  },
  plan(
    place: BirdPlace | null,
    marks: BirdMarks,
    request: ProgrammeRequest,
    tell: TellProgress,
  ): Programme {
    if (place) bench.hold(place)
    return bench.plan(marks, request, tell)
  },
}
