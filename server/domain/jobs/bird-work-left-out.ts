import { isCoverKind } from '../avian/measures/cover-parts.ts'
import type { AsLeft, MeasureAsLeft } from './as-left.ts'
import type { JobEntry, StepLeftOut } from './job-entry.ts'

/**
 * Which measures a step puts on, by its id. Ids are those of the orders of steps that come along; an
 * order that was edited keeps them.
 */
const PUTS_ON: Readonly<Record<string, 'every measure' | 'all but covers'>> = {
  'bird-work': 'every measure',
  'other-measures': 'all but covers',
}

/** A measure that is said to be done although the step that puts it on was left out. */
export interface DoneThoughLeftOut {
  readonly measure: MeasureAsLeft
  readonly step: StepLeftOut
}

type AtPole = Pick<MeasureAsLeft, 'pole' | 'measure'>

/** The step that would have put a measure on and was left out; undefined where none was. */
export function stepLeftOutFor(
  { pole, measure }: AtPole,
  entries: readonly JobEntry[],
): StepLeftOut | undefined {
  return entries.find((entry): entry is StepLeftOut => {
    if (entry.kind !== 'step left out' || entry.pole !== pole) return false
    const puts = PUTS_ON[entry.stepId]
    return puts === 'every measure' || (puts === 'all but covers' && !isCoverKind(measure))
  })
}

/** Where the record would say that a pole is guarded and the field said that it was not. */
export function doneThoughLeftOut(
  { measures }: Pick<AsLeft, 'measures'>,
  entries: readonly JobEntry[],
): DoneThoughLeftOut[] {
  return measures.flatMap((measure) => {
    const step = measure.isDone ? stepLeftOutFor(measure, entries) : undefined
    return step ? [{ measure, step }] : []
  })
}

/** Measures of one step about which the same is said. */
export interface LeftOutWork {
  /** "bushing cover, raised perch on pole P2". */
  readonly what: string
  /** "said to be done, but its step was left out (“Covers did not come”): put on in the afternoon". */
  readonly words: string
}

/** As people are told of it: once for each step and each word on it. */
export function leftOutWork(
  asLeft: Pick<AsLeft, 'measures'>,
  entries: readonly JobEntry[],
): LeftOutWork[] {
  const groups = new Map<string, { pole: string; words: string; kinds: Set<string> }>()
  for (const { measure, step } of doneThoughLeftOut(asLeft, entries)) {
    const { pole } = measure
    const how = measure.why?.trim() || 'nobody says how'
    const words = `said to be done, but its step was left out (“${step.why}”): ${how}`
    const key = `${pole}~${step.stepId}~${words}`
    const group = groups.get(key) ?? { pole, words, kinds: new Set() }
    groups.set(key, group)
    group.kinds.add(measure.measure)
  }
  return [...groups.values()].map(({ pole, words, kinds }) => ({
    what: `${[...kinds].join(', ')} on pole ${pole}`,
    words,
  }))
}
