import type { SiteOutcome } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import type { Store } from './ports.ts'
import { recordedFeeder } from './recorded-feeder.ts'
import type { RunWork, Threads, WorkEnding } from './work-ports.ts'

/** One siting study, on the version of the feeder that it was started for, with what the record holds now. */
export function runStudy(
  store: Pick<Store, 'feeders' | 'protections' | 'nests' | 'incidents'>,
  threads: Pick<Threads, 'site'>,
): RunWork {
  return async ({ feederId, feederVersion, payload }, follow) => {
    const { feeder } = await recordedFeeder(store, feederId ?? '', feederVersion ?? undefined)
    return endingOf(await threads.site(feeder, SiteRequest.parse(payload), follow))
  }
}

function endingOf(outcome: SiteOutcome): WorkEnding {
  switch (outcome.status) {
    case 'done':
      return { state: 'done', result: outcome.result }
    case 'cancelled':
      return { state: 'cancelled' }
    case 'rejected': {
      const detail =
        'The feeder has errors, so no bank can be sited on it. Each finding says what to do.'
      const findings = [...outcome.findings]
      return { state: 'failed', problem: { code: 'feeder-refused', detail, findings } }
    }
    case 'not-converged':
      return { state: 'failed', problem: { code: 'not-converged', detail: outcome.what } }
  }
}
