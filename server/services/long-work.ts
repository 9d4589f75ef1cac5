import type { Actor } from '#contract/actor.ts'
import type { StartImportBody, Work, WorkEvent, WorkKindName, WorkSummary } from '#contract/work.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'
import { settleCancelled } from './settle-cancelled.ts'
import { submitWork } from './submit-work.ts'
import { workEvents } from './work-events.ts'
import type { WorkItem } from './work-ports.ts'
import { summaryOf } from './work-summary.ts'

const MOST_LISTED = 100
/** More than the feeders that one request may name. */
const MOST_PARTS = 1000

/** What is the same for every kind of long work, and taking in a feeder in the background. */
export function longWorkService({
  store,
  work,
  clock,
  newId,
}: Pick<Ports, 'store' | 'work' | 'clock' | 'newId'>) {
  const find = async (workId: string, kind?: WorkKindName) => {
    const item = await work.find(workId)
    if (item && (kind === undefined || item.kind === kind)) return item
    throw new Refusal('not-found', `There is no work "${workId}" of this kind.`)
  }
  return {
    list: async (partOf: string | null): Promise<WorkSummary[]> => {
      const most = partOf === null ? MOST_LISTED : MOST_PARTS
      return (await store.work.latest(partOf, most)).map(summaryOf)
    },

    get: async (workId: string): Promise<Work> => shownOf(await find(workId)),

    follow: async (workId: string): Promise<AsyncIterable<WorkEvent>> => {
      await find(workId)
      return workEvents(work.follow(workId), shownOf)
    },

    startImport: async (actor: Actor, { layers, workId = newId() }: StartImportBody) => {
      const order = { id: workId, kind: 'take-in', feederId: null, feederVersion: null } as const
      const material = JSON.stringify(layers)
      const feederName = nameOf(layers)
      const payload = { layerNames: Object.keys(layers), bytes: material.length, feederName }
      const stamp = { actor, at: clock() }
      return submitWork(work, { ...order, payload, material }, stamp)
    },

    cancel: async (actor: Actor, workId: string, kind: WorkKindName): Promise<Work> => {
      await find(workId, kind)
      const written = await work.cancel(workId, { actor, at: clock() })
      return settleCancelled(written, 'work', shownOf)
    },
  }
}

/** As the layers say it; whether they are good is found out by the work. */
function nameOf(layers: Readonly<Record<string, unknown>>): string | null {
  const header = layers['feeder.json']
  const { name } =
    typeof header === 'object' && header !== null ? (header as { name?: unknown }) : {}
  return typeof name === 'string' ? name : null
}

function shownOf({
  attempt: _attempt,
  partOf: _partOf,
  payload: _payload,
  feederVersion: _version,
  ...shown
}: WorkItem): Work {
  return shown
}
