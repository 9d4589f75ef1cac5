import type { Actor } from '#contract/actor.ts'
import type { Asker } from '#contract/rights.ts'
import type { Study, StudyEvent, StudySummary } from '#contract/studies.ts'
import type { StartStudiesBody, StudiesStarted } from '#contract/work.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import { findFeeder } from './find-feeder.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'
import { refuseUnfitRequest } from './refuse-unfit-request.ts'
import { settleCancelled } from './settle-cancelled.ts'
import { submitWork } from './submit-work.ts'
import { studySeenBy } from './without-nests.ts'
import { workEvents } from './work-events.ts'
import type { WorkItem, WorkOrder } from './work-ports.ts'

type StudyPorts = Pick<Ports, 'store' | 'work' | 'clock' | 'newId'>

const MOST_LISTED = 50

/** Siting studies: each is an item of long work. */
export function studyService({ store, work, clock, newId }: StudyPorts) {
  const orderFor = async (id: string, feederId: string, request: SiteRequest) => {
    const { feeder, version } = await findFeeder(store, feederId)
    refuseUnfitRequest(feeder, request)
    return { id, kind: 'siting', feederId, feederVersion: version, payload: request } as const
  }
  const find = async (studyId: string) => {
    const item = await work.find(studyId)
    if (item?.kind === 'siting') return item
    throw new Refusal('not-found', `There is no study "${studyId}".`)
  }
  return {
    start: async (actor: Actor, feederId: string, request: SiteRequest, studyId = newId()) => {
      const order = await orderFor(studyId, feederId, request)
      return studyOf(await submitWork(work, order, { actor, at: clock() }))
    },

    /** One study for each of the feeders; the whole ends with the last of them. */
    startMany: async (actor: Actor, body: StartStudiesBody): Promise<StudiesStarted> => {
      const { request, workId = newId() } = body
      const feederIds = [...new Set(body.feederIds)]
      const parts: WorkOrder[] = []
      for (const [index, feederId] of feederIds.entries()) {
        parts.push(await orderFor(`${workId}.${index + 1}`, feederId, request))
      }
      const whole = {
        id: workId,
        kind: 'siting-many',
        feederId: null,
        feederVersion: null,
      } as const
      const order = { ...whole, payload: { feederIds, request }, parts }
      await submitWork(work, order, { actor, at: clock() })
      return {
        workId,
        studies: parts.map(({ id }, at) => ({ feederId: feederIds[at] ?? '', studyId: id })),
      }
    },

    get: async (asker: Asker, studyId: string): Promise<Study> =>
      studySeenBy(asker, studyOf(await find(studyId))),

    list: async (feederId: string): Promise<StudySummary[]> => {
      await findFeeder(store, feederId)
      return (await store.work.list('siting', feederId, MOST_LISTED)).map(studyOf)
    },

    /** Its present state first, then each change, and last how it ended. */
    follow: async (asker: Asker, studyId: string): Promise<AsyncIterable<StudyEvent>> => {
      await find(studyId)
      return workEvents(work.follow(studyId), (item) => studySeenBy(asker, studyOf(item)))
    },

    cancel: async (actor: Actor, studyId: string): Promise<Study> => {
      await find(studyId)
      const written = await work.cancel(studyId, { actor, at: clock() })
      return settleCancelled(written, 'study', studyOf)
    },
  }
}

function studyOf(item: WorkItem): Study {
  const { kind: _kind, attempt: _attempt, partOf: _partOf, ...told } = item
  const { payload, feederId, feederVersion, result, ...rest } = told
  return {
    ...rest,
    feederId: feederId ?? '',
    feederVersion: feederVersion ?? 1,
    request: payload as Study['request'],
    ...(result !== undefined && { result: result as Study['result'] }),
  }
}
