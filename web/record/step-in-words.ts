import { type Asked, Step } from '#domain/jobs/step-sequence.ts'
import { listed } from '../state/format.ts'
import type { FieldChange } from './change-in-words.ts'
import { shortText } from './short-text.ts'

/** A whole step in a few sentences; empty for what is none. */
export function stepInWords(value: unknown): string {
  const { data: step } = Step.safeParse(value)
  if (!step) return ''
  const said = [
    step.isHoldPoint && 'Hold point.',
    sentence(step.text),
    step.hazard && `Hazard: ${sentence(step.hazard)}`,
    step.each === 'unit' && 'For each unit.',
    step.onlyWith && `Only at banks with ${step.onlyWith}.`,
    step.readsAsFound !== undefined && heldAgainst(step.readsAsFound),
    step.action && `To ${step.action}.`,
    step.asks.length > 0 && `Asks for ${listed(step.asks.map(askedInWords))}.`,
    step.signedBy !== 'one of the crew' && `Signed by ${signerInWords(step.signedBy)}.`,
    step.mayBeLeftOut && 'May be left out with a reason.',
  ]
  return said.filter(Boolean).join(' ')
}

/** Steps that differ between two states of an order, and whether the others stand in another order. */
export function stepChanges(before: unknown, after: unknown): FieldChange[] {
  const then = stepsOf(before)
  const now = stepsOf(after)
  const ids = [...new Set([...then.keys(), ...now.keys()])]
  const changed = ids.flatMap((id) => {
    const [from, to] = [stepInWords(then.get(id)), stepInWords(now.get(id))]
    return from === to
      ? []
      : [{ label: `Step “${textOf(now.get(id) ?? then.get(id), id)}”`, from, to }]
  })
  const isThere = (id: string) => then.has(id) && now.has(id)
  const [was, is] = [then, now].map((steps) => [...steps.keys()].filter(isThere))
  if (!was || !is || was.join() === is.join()) return changed
  const inWords = (order: readonly string[]) =>
    order.map((id) => `“${textOf(now.get(id), id)}”`).join(', ')
  return [...changed, { label: 'Order', from: inWords(was), to: inWords(is) }]
}

function stepsOf(value: unknown): Map<string, unknown> {
  const steps: unknown[] = Array.isArray(value) ? value : []
  return new Map(steps.map((step, index) => [String((step as { id?: unknown }).id ?? index), step]))
}

function textOf(step: unknown, id: string): string {
  const text = (step as { text?: unknown } | undefined)?.text
  return typeof text === 'string' && text !== '' ? shortText(text) : id
}

function askedInWords({ what, kind, isNeeded, judge, ...rest }: Asked): string {
  const unit = 'unit' in rest && rest.unit !== '' ? ` in ${rest.unit}` : ''
  const options = 'options' in rest ? ` (${rest.options.join(', ')})` : ''
  const judged = judge ? `, judged by “${judge}”` : ''
  const limits = 'unit' in rest ? rangeInWords(rest) : ''
  const no = 'ifNo' in rest && rest.ifNo ? `, with no told as “${rest.ifNo}”` : ''
  return `“${what}”${unit}${limits}${options}${kind === 'yes or no' ? ', yes or no' : ''}${judged}${no}${isNeeded ? '' : ', if there'}`
}

function rangeInWords({
  least,
  most,
}: {
  readonly least?: number
  readonly most?: number
}): string {
  const from = least === undefined ? '' : ` from ${least}`
  return most === undefined ? from : `${from} to ${most}`
}

const signerInWords = (signer: Step['signedBy']): string =>
  signer === 'person in charge' ? 'the person in charge' : signer

const heldAgainst = (asFound: boolean): string =>
  asFound
    ? 'Its readings are held against the bank as it stands before the work.'
    : 'Its readings are held against the bank as it is to stand.'

const sentence = (words: string): string => (/[.!?]$/.test(words) ? words : `${words}.`)
