import { feederRecords } from './feeder-records.ts'
import type { Ports } from './ports.ts'
import { refuseUnknownPole } from './refuse-unknown-pole.ts'

/** Finds of dead or hurt birds. */
export function incidentService(ports: Pick<Ports, 'store' | 'clock' | 'newId'>) {
  return feederRecords(ports, ports.store.incidents, {
    word: 'find',
    check: (feederId, { pole }) => refuseUnknownPole(ports.store, feederId, pole),
  })
}
