import { runImport } from './import-work.ts'
import type { Clock, Store } from './ports.ts'
import { runHistoryReport } from './report-work.ts'
import { runStudy } from './study-work.ts'
import type { Threads, WorkKinds } from './work-ports.ts'

interface KindPorts {
  readonly store: Pick<
    Store,
    'feeders' | 'protections' | 'nests' | 'incidents' | 'history' | 'reports'
  >
  readonly threads: Threads
  readonly clock: Clock
}

/** How each kind of long work is done. */
export function workKinds(ports: KindPorts): WorkKinds {
  return {
    siting: runStudy(ports.store, ports.threads),
    'take-in': runImport(ports),
    'history-report': runHistoryReport(ports),
  }
}
