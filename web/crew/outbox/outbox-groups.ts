import type { OutboxItem } from '../../api/outbox.ts'
import { standingOf } from './outbox-words.ts'

/** What was entered of one job, or of none. */
export interface OutboxGroup {
  readonly jobId: string | null
  /** Only the person can say what becomes of these. */
  readonly forYou: readonly OutboxItem[]
  /** Waiting or being sent. */
  readonly unsent: readonly OutboxItem[]
  /** Arrived or set aside. */
  readonly settled: readonly OutboxItem[]
}

/** One group a job, those first that need the person, then those that wait; what is of no job last. */
export function groupOutbox(items: readonly OutboxItem[]): OutboxGroup[] {
  const jobIds = [...new Set(items.map(({ jobId }) => jobId ?? null))]
  const groups = jobIds.map((jobId): OutboxGroup => {
    const own = items.filter((item) => (item.jobId ?? null) === jobId)
    const among = (...standings: readonly string[]) =>
      own.filter((item) => standings.includes(standingOf(item)))
    return {
      jobId,
      forYou: among('conflict', 'refused'),
      unsent: among('sending', 'waiting'),
      settled: among('kept', 'set aside'),
    }
  })
  return groups.sort((a, b) => placeOf(a) - placeOf(b))
}

function placeOf({ jobId, forYou, unsent }: OutboxGroup): number {
  if (forYou.length > 0) return 0
  if (unsent.length > 0) return jobId === null ? 2 : 1
  return jobId === null ? 4 : 3
}

/** Whether several of them hang on each other, as the steps of a job do. */
export function hangTogether({ jobId, unsent }: OutboxGroup): boolean {
  return jobId !== null && unsent.length > 1
}
