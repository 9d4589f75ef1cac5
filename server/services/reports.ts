import type { Actor } from '#contract/actor.ts'
import { type HistoryReportResult, REPORT_DAYS } from '#contract/reports.ts'
import type { StartHistoryReportBody } from '#contract/work.ts'
import { findFeeder } from './find-feeder.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'
import { submitWork } from './submit-work.ts'

type ReportPorts = Pick<Ports, 'store' | 'work' | 'clock' | 'newId'>

/** Reports of the history, made in the background and kept as files. */
export function reportService({ store, work, clock, newId }: ReportPorts) {
  return {
    /** @throws Refusal `not-found` or `malformed-request` */
    start: async (actor: Actor, { workId = newId(), ...request }: StartHistoryReportBody) => {
      const { feederId = null, from, to } = request
      if (feederId !== null) await findFeeder(store, feederId)
      if (from !== undefined && to !== undefined && from > to) throw wrongOrder()
      const order = { id: workId, kind: 'history-report', feederId, feederVersion: null } as const
      return submitWork(work, { ...order, payload: request }, { actor, at: clock() })
    },

    /** @throws Refusal `not-found` or `wrong-state` */
    open: async (workId: string) => {
      const item = await work.find(workId)
      if (item?.kind !== 'history-report') {
        throw new Refusal('not-found', `There is no report "${workId}".`)
      }
      if (item.state !== 'done') {
        throw new Refusal('wrong-state', 'The report is not done, so there is no file of it.')
      }
      const file = await store.reports.open(workId)
      if (!file) throw noLongerKept()
      const { fileName } = item.result as HistoryReportResult
      return { ...file, fileName, isCsv: fileName.endsWith('.csv') }
    },
  }
}

function wrongOrder(): Refusal {
  return new Refusal('malformed-request', 'The period ends before it begins.', {
    faults: [{ at: 'body.to', what: 'must not be before the first day' }],
  })
}

function noLongerKept(): Refusal {
  const why = `The file is no longer kept: files of reports go after ${REPORT_DAYS} days. Make the report again.`
  return new Refusal('not-found', why)
}
