import type { Written } from './ports.ts'
import { Refusal } from './refusal.ts'
import type { WorkItem } from './work-ports.ts'

/**
 * The item as cancelled.
 *
 * @param what as "study", for the words
 * @param shown the item as the address gives it
 * @throws Refusal `not-found`, or `wrong-state` with what stands
 */
export function settleCancelled<Shown>(
  written: Written<WorkItem>,
  what: string,
  shown: (item: WorkItem) => Shown,
): Shown {
  if (written.status === 'written') return shown(written.record)
  if (written.status === 'missing') throw new Refusal('not-found', `There is no such ${what}.`)
  const current = shown(written.current)
  const { state } = written.current
  throw new Refusal('wrong-state', `The ${what} has ended (${state}); it cannot be cancelled.`, {
    current,
  })
}
