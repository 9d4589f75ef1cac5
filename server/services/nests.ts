import { feederRecords } from './feeder-records.ts'
import type { Ports } from './ports.ts'
import { refuseUnknownPole } from './refuse-unknown-pole.ts'

export function nestService(ports: Pick<Ports, 'store' | 'clock' | 'newId'>) {
  return feederRecords(ports, ports.store.nests, {
    word: 'nest',
    check: (feederId, { pole }) => refuseUnknownPole(ports.store, feederId, pole),
  })
}
