import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import { type DraftScene, isBankPole } from './draft-scene.ts'
import { expectedAt } from './expected-readings.ts'
import type { BankWork, ExpectedCase, ExpectedReading } from './job-plan.ts'
import { shortNumber } from './short-number.ts'

/** What could not be found out, and what the figures of the plan say that somebody should look at. */
export function planNotes(scene: DraftScene, expected: readonly ExpectedCase[]): string[] {
  const { bank } = scene
  return [
    ...poleNotes(scene),
    ...stepsWithoutUnits(scene),
    ...(bank ? ratioNotes(bank) : []),
    ...(bank ? bankNotes(scene, bank, expected) : []),
    ...(bank ? atNeutralNotes(scene, bank, expected) : []),
  ]
}

function poleNotes({ tops, works }: DraftScene): string[] {
  return works.flatMap(({ openPairsAfter, pole }) => {
    if (!tops.has(pole)) {
      return [
        `Nothing is recorded from which the top of pole ${pole} could be drawn, so its open pairs are not known.`,
      ]
    }
    if (openPairsAfter === 0) return []
    const pairs = openPairsAfter === 1 ? '1 pair stays' : `${openPairsAfter} pairs stay`
    return [`On pole ${pole} ${pairs} open for the design species after the work.`]
  })
}

/** Steps for each unit are none where no unit is part of the job: the crew has to know that. */
function stepsWithoutUnits(scene: DraftScene): string[] {
  return scene.works
    .filter(({ pole }) => !isBankPole(scene, pole))
    .filter(({ sequence }) => sequence.steps.some(({ each }) => each === 'unit'))
    .map(
      ({ pole, sequence }) =>
        `At pole ${pole} no bank is part of this job, so the steps of “${sequence.name}” for each unit fall away: no bank is worked there under this job.`,
    )
}

/** Beyond this a control shows plainly other volts than the 120 V base (an assumption). */
const SAME_BASE_SHARE = 0.01

function ratioNotes({ neutralV, regulator }: BankWork): string[] {
  const nominalReadV = neutralV / regulator.ptRatio
  if (Math.abs(nominalReadV / BASE_VOLTS120 - 1) <= SAME_BASE_SHARE) return []
  return [
    `With a potential ratio of ${shortNumber(regulator.ptRatio)} the control reads ${nominalReadV.toFixed(1)} V at nominal ${neutralV.toFixed(0)} V to neutral, not ${BASE_VOLTS120} V: hold its readings against that.`,
  ]
}

function bankNotes(
  { feeder, peakA }: DraftScene,
  { regulator }: BankWork,
  expected: readonly ExpectedCase[],
): string[] {
  const { ratingA } = regulator
  const highV = feeder.header.limits.highVolts120
  const [first] = expected
  const dark = first
    ? [...regulator.phases].filter((name) => !first.readings.some(({ phase }) => phase === name))
    : []
  const notes = expected.flatMap(({ caseName, readings }) => [
    ...readings
      .filter((reading) => isAtEnd(reading, regulator))
      .map(
        ({ phase, tap }) => `In ${caseName} phase ${phase} is at the end of its range (${tap}).`,
      ),
    ...readings
      .filter(({ loadVolts120 }) => loadVolts120 > highV)
      .map(
        ({ loadVolts120, phase }) =>
          `In ${caseName} phase ${phase} has ${loadVolts120.toFixed(1)} V right behind the bank, above the high limit of ${highV} V.`,
      ),
  ])
  for (const phase of dark) {
    notes.push(
      `No power reaches the bank on phase ${phase} in the model: nothing is expected there.`,
    )
  }
  if (peakA !== null && ratingA !== undefined && peakA > ratingA) {
    notes.push(
      `${peakA.toFixed(0)} A are expected, more than the ${ratingA} A of a unit at full range.`,
    )
  }
  return notes
}

/**
 * While a bank is bypassed it stands at neutral, and beyond it the volts are those of its source
 * side; once it is gone they stay so.
 */
function atNeutralNotes(
  { feeder, kind }: DraftScene,
  bank: BankWork,
  expected: readonly ExpectedCase[],
): string[] {
  if (kind !== 'change out a bank' && kind !== 'remove a bank') return []
  const lowV = feeder.header.limits.lowVolts120
  const when = kind === 'remove a bank' ? 'Without the bank' : 'While the bank is bypassed'
  return expected.flatMap(({ caseId, caseName }) => {
    const now = expectedAt(feeder, bank, { caseId, loadFactor: 1, taps: {} })
    if (now.status === 'not solved') {
      return [`${when} ${caseName} could not be solved: ${now.what}`]
    }
    const [lowest] = now.readings.toSorted((a, b) => a.loadVolts120 - b.loadVolts120)
    if (!lowest || lowest.loadVolts120 >= lowV) return []
    return [
      `${when} phase ${lowest.phase} has ${lowest.loadVolts120.toFixed(1)} V at the pole in ${caseName}, below the low limit of ${lowV} V, and may have less farther out${kind === 'remove a bank' ? '' : ': choose a time of less load'}.`,
    ]
  })
}

/** As far as it goes, and its reading still outside the band. */
function isAtEnd({ relayVolts, tap }: ExpectedReading, bank: BankWork['regulator']): boolean {
  const { bandCentreV, bandwidthV, maxLower, maxRaise } = bank
  const offV = relayVolts - bandCentreV
  return offV < -bandwidthV / 2 ? tap >= maxRaise : offV > bandwidthV / 2 && tap <= -maxLower
}
