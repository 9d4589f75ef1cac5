import { hasEnded, type WorkProgress } from '#contract/work.ts'
import type { WorkItem } from './work-ports.ts'

type Told<Shown> =
  | { event: 'progress'; data: WorkProgress }
  | { event: 'done' | 'failed' | 'cancelled'; data: Shown }

/** What followers are told: how far the work is, and last the whole of it. */
export async function* workEvents<Shown>(
  items: AsyncIterable<WorkItem>,
  shownOf: (item: WorkItem) => Shown,
): AsyncGenerator<Told<Shown>> {
  for await (const item of items) {
    const { state, done, total, phase } = item
    if (hasEnded(state)) {
      yield { event: state as 'done' | 'failed' | 'cancelled', data: shownOf(item) }
    } else yield { event: 'progress', data: { state, done, total, phase } }
  }
}
