import type { InputFault } from '#contract/problem.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { ProgrammeBody, ProgrammeName } from './bird-ports.ts'
import { feederRecords } from './feeder-records.ts'
import { findFeeder } from './find-feeder.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'

export function programmeService(ports: Pick<Ports, 'store' | 'clock' | 'newId'>) {
  return feederRecords(ports, ports.store.programmes, {
    word: 'programme',
    check: async (feederId, body) => {
      const { feeder } = await findFeeder(ports.store, feederId)
      if (isWhole(body)) refuseOtherPoles(feeder, body)
    },
  })
}

function isWhole(body: ProgrammeBody | ProgrammeName): body is ProgrammeBody {
  return 'programme' in body
}

/** Faults that are told; more of them would say nothing new. */
const MOST_FAULTS = 20

function refuseOtherPoles(feeder: Feeder, { programme }: ProgrammeBody): void {
  const known = new Set(feeder.poles.map(({ id }) => id))
  const faults = polesOf(programme)
    .filter(({ pole }) => !known.has(pole))
    .slice(0, MOST_FAULTS)
    .map(({ at }): InputFault => ({ at, what: 'names no pole of the feeder' }))
  if (faults.length === 0) return
  const detail = `Feeder "${feeder.header.id}" does not have all poles of the programme. Plan it again on the feeder as it is now.`
  throw new Refusal('malformed-request', detail, { faults })
}

/** Every pole that it names, with where. */
function polesOf({ poles, leftOut, rounds }: ProgrammeBody['programme']) {
  const at = 'body.programme'
  return [
    ...poles.map(({ pole }, index) => ({ pole, at: `${at}.poles.${index}.pole` })),
    ...leftOut.map(({ pole }, index) => ({ pole, at: `${at}.leftOut.${index}.pole` })),
    ...rounds.flatMap((round, number) =>
      round.poles.map((pole, index) => ({ pole, at: `${at}.rounds.${number}.poles.${index}` })),
    ),
  ]
}
