import type { Stamp } from './ports.ts'
import { Refusal } from './refusal.ts'
import type { WorkItem, WorkOrder, WorkQueue } from './work-ports.ts'

/**
 * Submits work whose id a client may have made.
 *
 * @throws Refusal `key-reused` where the id stands for other work already
 */
export async function submitWork(
  work: Pick<WorkQueue, 'submit'>,
  order: WorkOrder,
  stamp: Stamp,
): Promise<WorkItem> {
  const item = await work.submit(order, stamp)
  if (wordsOf(item) === wordsOf(order) && item.startedBy.id === stamp.actor.id) return item
  throw new Refusal(
    'key-reused',
    `The id "${order.id}" stands for other work. Give each new request an id of its own.`,
  )
}

function wordsOf({ kind, feederId, payload }: WorkItem | WorkOrder): string {
  return JSON.stringify([kind, feederId, payload])
}
