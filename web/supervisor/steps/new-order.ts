import type { SequenceRecord } from '#contract/jobs.ts'
import type { StepSequence } from '#domain/jobs/step-sequence.ts'
import { bodyOfSequence, type OrderBody, type OrderDraft, orderDrafts } from './order-draft.ts'

/** Under which the one order that is being added is kept; no order has such an id. */
export const NEW_ORDER = '+'

export const useNewOrder = (): OrderDraft | null => orderDrafts.use(NEW_ORDER)

/** Begins an order with the steps of another, for the same kinds of job. */
export function beginOrder(name: string, like: StepSequence, taken: readonly string[]): void {
  const body: OrderBody = { ...bodyOfSequence(like), name, id: idOfName(name, taken) }
  orderDrafts.keep(NEW_ORDER, { body, version: 0, base: body })
}

/** A new order takes its id from its name, among those that are in use. */
export function withOwnId(body: OrderBody, records: readonly SequenceRecord[]): OrderBody {
  const taken = records.map(({ sequence }) => sequence.id)
  return { ...body, id: idOfName(body.name, taken) }
}

const MOST_LETTERS = 56

/** "Our own change-out" is `our-own-change-out`, and where that is taken `our-own-change-out-2`. */
export function idOfName(name: string, taken: readonly string[]): string {
  const letters = name
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, MOST_LETTERS)
    .replace(/^-|-$/g, '')
  const id = letters || 'order'
  for (let number = 1; ; number++) {
    const numbered = number === 1 ? id : `${id}-${number}`
    if (!taken.includes(numbered)) return numbered
  }
}

/** Whether another order has this name: crews tell orders by it. */
export function isNameTaken({ id, name }: OrderBody, records: readonly SequenceRecord[]): boolean {
  return records.some(({ sequence }) => sequence.id !== id && keyOf(sequence.name) === keyOf(name))
}

const keyOf = (name: string): string => name.trim().replace(/\s+/g, ' ').toLowerCase()
