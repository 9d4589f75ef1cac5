import type { StepSequence } from './step-sequence.ts'

/** How a bank stands before the first step of an order. */
export type BankAtStart = NonNullable<StepSequence['bankAtStart']>

/**
 * How a bank has to stand for an order of steps: as it says, else by its first switch. One that
 * begins by closing the line switches of a unit takes it to hang bypassed, every other one to be in
 * service. Null for an order that works nothing at a unit, which may begin at either.
 */
export function bankAtStartOf({
  bankAtStart,
  steps,
}: Pick<StepSequence, 'bankAtStart' | 'steps'>): BankAtStart | null {
  if (bankAtStart) return bankAtStart
  const actions = steps.flatMap(({ action }) => action ?? [])
  if (actions.length === 0) return null
  const first = actions.find((action) => action in FIRST)
  return (first && FIRST[first]) ?? 'in service'
}

const FIRST: Partial<Readonly<Record<string, BankAtStart>>> = {
  'close the source switch': 'bypassed',
  'close the load switch': 'bypassed',
  'open the source switch': 'in service',
  'open the load switch': 'in service',
  'take the unit down': 'in service',
  'set the unit': 'in service',
}
