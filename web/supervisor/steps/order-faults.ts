import type { SequenceRecord } from '#contract/jobs.ts'
import { checkSequence } from '#domain/jobs/check-sequence.ts'
import { StepSequence } from '#domain/jobs/step-sequence.ts'
import { isNameTaken } from './new-order.ts'
import { isLimit, linesOf, type OrderBody, type StepDraft, sequenceOfBody } from './order-draft.ts'

export interface OrderFaults {
  /** The order as it may be set; null as long as anything is wrong. */
  readonly sequence: StepSequence | null
  /** Of the order as a whole. */
  readonly general: readonly string[]
  /** Of single steps, by id; a fault between two steps stands at both. */
  readonly bySteps: ReadonlyMap<string, readonly string[]>
}

/**
 * What keeps an order of steps from being set: what is not filled in yet, else what is not safe.
 *
 * @param records All that are in use
 */
export function orderFaults(body: OrderBody, records: readonly SequenceRecord[] = []): OrderFaults {
  const faults = [...incomplete(body), ...takenName(body, records)]
  if (faults.length > 0) return sorted(body, faults, null)
  const { data: sequence, error } = StepSequence.safeParse(sequenceOfBody(body))
  if (!sequence) {
    const words = error.issues.map(({ path, message }) => `${placeInWords(path)}: ${message}.`)
    return sorted(body, words, null)
  }
  const unsafe = checkSequence(sequence).map((fault) => withNumbers(fault, body))
  return sorted(body, unsafe, unsafe.length === 0 ? sequence : null)
}

function sorted(
  { steps }: OrderBody,
  faults: readonly string[],
  sequence: StepSequence | null,
): OrderFaults {
  const bySteps = new Map<string, string[]>()
  const general: string[] = []
  for (const fault of faults) {
    const at = steps.filter((_, index) => names(fault, index + 1))
    if (at.length === 0) general.push(fault)
    for (const { id } of at) bySteps.set(id, [...(bySteps.get(id) ?? []), fault])
  }
  return { sequence, general, bySteps }
}

const names = (fault: string, number: number): boolean =>
  new RegExp(`\\b(?:step|hold point) ${number}\\b`, 'i').test(fault)

/** Steps are told by their number, which is what the person sees. */
function withNumbers(fault: string, { steps }: OrderBody): string {
  return steps.reduce(
    (words, { id }, index) =>
      words
        .replaceAll(`tep “${id}”`, `tep ${index + 1}`)
        .replaceAll(`point “${id}”`, `point ${index + 1}`)
        .replaceAll(`with “${id}”`, `with step ${index + 1}`),
    fault,
  )
}

function incomplete({ name, forKinds, steps }: OrderBody): string[] {
  return [
    ...(name.trim() === '' ? ['Give the order a name.'] : []),
    ...(forKinds.length === 0 ? ['Say for which kinds of job it is.'] : []),
    ...(steps.length === 0 ? ['Add at least one step.'] : []),
    ...steps.flatMap((step, index) => incompleteStep(step, index + 1)),
  ]
}

function takenName(body: OrderBody, records: readonly SequenceRecord[]): string[] {
  return isNameTaken(body, records)
    ? ['Another order of steps has this name: crews tell orders by it, so give it one of its own.']
    : []
}

function incompleteStep({ text, asks }: StepDraft, number: number): string[] {
  return [
    ...(text.trim() === '' ? [`Step ${number} does not say what is done.`] : []),
    ...asks.flatMap(({ what, kind, options, least, most }) => [
      ...(what.trim() === '' ? [`Step ${number} asks for something without a name.`] : []),
      ...(kind === 'choice' && linesOf(options).length < 2
        ? [`Step ${number} asks for a choice: give it two options or more.`]
        : []),
      ...(kind === 'number' && !(isLimit(least) && isLimit(most))
        ? [`Step ${number} has a limit of a reading that is no number.`]
        : []),
    ]),
  ]
}

function placeInWords(path: readonly PropertyKey[]): string {
  const [first, index, ...rest] = path
  if (first !== 'steps' || typeof index !== 'number') return path.join(' ')
  return `Step ${index + 1}${rest.length > 0 ? `, ${rest.join(' ')}` : ''}`
}
