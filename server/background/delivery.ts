import type { WorkStore } from '../services/work-ports.ts'

/**
 * Brings items that wait to a worker that is free. It may bring one twice or too late: the row says
 * who gets it. What it loses is offered again.
 */
export interface Delivery {
  offer(workId: string): Promise<void>
  /** Null where nothing waits. */
  next(): Promise<Delivered | null>
  /** Offers again what waits in the table and was lost on the way. */
  offerLost(): Promise<void>
  close(): Promise<void>
}

export interface Delivered {
  readonly workId: string
  /** Called once the row says who has the item; what is not accepted comes again. */
  accept(): Promise<void>
}

/** The table itself is the queue: enough for the processes of one machine. */
export function localDelivery(store: Pick<WorkStore, 'waiting'>): Delivery {
  return {
    offer: async () => undefined,
    next: async () => {
      const [workId] = await store.waiting(1)
      return workId === undefined ? null : { workId, accept: async () => undefined }
    },
    offerLost: async () => undefined,
    close: async () => undefined,
  }
}
