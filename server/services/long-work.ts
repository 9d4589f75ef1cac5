import type { Actor } from '#contract/actor.ts'
import type { StartImportBody, Work, WorkEvent, WorkKindName } from '#contract/work.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'
import { settleCancelled } from './settle-cancelled.ts'
import { submitWork } from './submit-work.ts'
import { workEvents } from './work-events.ts'
import type { WorkItem } from './work-ports.ts'

/** What is the same for every kind of long work, and taking in a feeder in the background. */
export function longWorkService({ work, clock, newId }: Pick<Ports, 'work' | 'clock' | 'newId'>) {
  const find = async (workId: string, kind?: WorkKindName) => {
    const item = await work.find(workId)
    if (item && (kind === undefined || item.kind === kind)) return item
    throw new Refusal('not-found', `There is no work "${workId}" of this kind.`)
  }
  return {
    get: async (workId: string): Promise<Work> => shownOf(await find(workId)),

    follow: async (workId: string): Promise<AsyncIterable<WorkEvent>> => {
      await find(workId)
      return workEvents(work.follow(workId), shownOf)
    },

    startImport: async (actor: Actor, { layers, workId = newId() }: StartImportBody) => {
      const order = { id: workId, kind: 'take-in', feederId: null, feederVersion: null } as const
      const material = JSON.stringify(layers)
      const payload = { layerNames: Object.keys(layers), bytes: material.length }
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

function shownOf({
  attempt: _attempt,
  payload: _payload,
  feederVersion: _version,
  ...shown
}: WorkItem): Work {
  return shown
}
