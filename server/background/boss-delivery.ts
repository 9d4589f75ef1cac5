import PgBoss from 'pg-boss'
import type { WorkStore } from '../services/work-ports.ts'
import type { Delivered, Delivery } from './delivery.ts'

const SCHEMA = 'crossarm_queue'
const QUEUE = 'work'

/** From being brought to being accepted it takes one statement. */
const ACCEPT_WITHIN_S = 60

/** Looked at for what was lost; what waits beyond comes as these are done. */
const MOST_LOST = 1000

/** A queue in the same database, from which any number of processes on any machine are served. */
export async function bossDelivery(
  url: string,
  store: Pick<WorkStore, 'waiting'>,
  reportFault: (fault: unknown) => void,
): Promise<Delivery> {
  const boss = new PgBoss({
    connectionString: url,
    application_name: 'crossarm queue',
    schema: SCHEMA,
    max: 2,
    schedule: false,
  })
  boss.on('error', reportFault)
  await boss.start()
  // Of what waits to be brought, one for each item.
  await boss.createQueue(QUEUE, { name: QUEUE, policy: 'short', expireInSeconds: ACCEPT_WITHIN_S })
  const offer = async (workId: string) => {
    await boss.send(QUEUE, { workId }, { singletonKey: workId })
  }
  return {
    offer,
    next: () => fetchNext(boss),
    offerLost: async () => {
      const waiting = await store.waiting(MOST_LOST)
      if (waiting.length === 0) return
      const onTheWay = await boss.getQueueSize(QUEUE, { before: 'active' })
      if (onTheWay < waiting.length) for (const workId of waiting) await offer(workId)
    },
    close: () => boss.stop({ graceful: false }),
  }
}

async function fetchNext(boss: PgBoss): Promise<Delivered | null> {
  // The clock of the database may have been set back since the item was offered.
  const [job] = await boss.fetch<{ workId: string }>(QUEUE, { ignoreStartAfter: true })
  if (!job) return null
  return { workId: job.data.workId, accept: () => boss.deleteJob(QUEUE, job.id) }
}
