import { inchesOfMetres } from '#domain/units/length.ts'
import { lineVoltsInWords } from '#domain/units/rounded-volts.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import { isBypassed } from '../feeder/is-bypassed.ts'
import { type DraftScene, isBankPole } from './draft-scene.ts'
import { customersAre } from './feeder-limits.ts'
import { setsUnits } from './is-bank-kind.ts'
import type { BankWork, BypassedCase, ExpectedCase, ExpectedReading } from './job-plan.ts'
import { openPairList } from './open-pairs.ts'
import { shortNumber } from './short-number.ts'

/** What could not be found out, and what the figures of the plan say that somebody should look at. */
export function planNotes(scene: DraftScene, expected: readonly ExpectedCase[]): string[] {
  const { bank } = scene
  return [
    ...poleNotes(scene),
    ...stepsWithoutUnits(scene),
    ...(bank ? neutralSideNotes(scene, bank) : []),
    ...(bank ? ratioNotes(bank) : []),
    ...(bank ? bankNotes(scene, bank, expected) : []),
    ...bypassNotes(scene),
  ]
}

function poleNotes(scene: DraftScene): string[] {
  return scene.works.flatMap(({ openPairsAfter, pole }) => {
    if (!scene.tops.has(pole)) {
      return [
        `Nothing is recorded from which the top of pole ${pole} could be drawn, so its open pairs are not known.`,
      ]
    }
    if (openPairsAfter === 0) return []
    if (scene.kind === 'inspection') return [pairsToLookAt(scene, pole, openPairsAfter)]
    const pairs = openPairsAfter === 1 ? '1 pair stays' : `${openPairsAfter} pairs stay`
    return [`On pole ${pole} ${pairs} open for the design species after the work.`]
  })
}

/** More than this are counted. */
const MOST_PAIRS_NAMED = 6

/** The tightest by their parts, so that an inspector knows where to look. */
function pairsToLookAt(
  { birdSettings, feeder, sites }: DraftScene,
  pole: string,
  open: number,
): string {
  const site = sites.get(pole)
  const items = feeder.protections.filter((item) => item.pole === pole)
  const pairs = (site && openPairList(site, items, [], birdSettings)) ?? []
  const named = pairs
    .slice(0, MOST_PAIRS_NAMED)
    .map(
      ({ distanceM, partA, partB }) =>
        `${partA.label} to ${partB.label} (${inchesOfMetres(distanceM).toFixed(0)} in)`,
    )
  const more = pairs.length - named.length
  const are = open === 1 ? '1 pair is' : `${open} pairs are`
  return `On pole ${pole} ${are} open for the design species; look at ${named.join(', ')}${more > 0 ? ` and ${more} more` : ''}.`
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

function neutralSideNotes({ kind }: DraftScene, { regulator, standing }: BankWork): string[] {
  const isSwitched = regulator.neutralSide === 'switched'
  if (!standing || !setsUnits(kind)) return []
  if (isSwitched === (standing.neutralSide === 'switched')) return []
  return [
    isSwitched
      ? 'The new units get a neutral-side switch and the old ones have none: it is closed before a unit comes under voltage.'
      : 'The old units have a neutral-side switch and the new ones get none: the SL terminal of a new unit is joined solidly to the neutral before it comes under voltage.',
  ]
}

/** Beyond this a control shows plainly other volts than the 120 V base (an assumption). */
const SAME_BASE_SHARE = 0.01

function ratioNotes({ neutralV, regulator }: BankWork): string[] {
  const nominalReadV = neutralV / regulator.ptRatio
  if (Math.abs(nominalReadV / BASE_VOLTS120 - 1) <= SAME_BASE_SHARE) return []
  return [
    `With a potential ratio of ${shortNumber(regulator.ptRatio)} the control reads ${nominalReadV.toFixed(1)} V at nominal ${lineVoltsInWords(neutralV)} to neutral, not ${BASE_VOLTS120} V: hold its readings against that.`,
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

/** What the bypass does to customers in the case in which it is worst; the plan has the others. */
function bypassNotes({ bank, feeder, kind, whileBypassed }: DraftScene): string[] {
  const { lowVolts120 } = feeder.header.limits
  const [worst] = whileBypassed.toSorted(
    (a, b) => moreOutside(b) - moreOutside(a) || lowestVolts(a) - lowestVolts(b),
  )
  if (!worst || (moreOutside(worst) <= 0 && lowestVolts(worst) >= lowVolts120)) return []
  const { caseName, customersOutside, customersOutsideInService, lowest } = worst
  const when =
    bank?.standing && isBypassed(bank.standing)
      ? 'Bypassed, as the bank hangs now,'
      : kind === 'remove a bank'
        ? 'Without the bank'
        : 'While the bank is bypassed'
  const outside = `${when} ${customersAre(feeder, customersOutside)} outside the limits in ${caseName}, against ${customersOutsideInService} with it in service`
  if (!lowest) return [`${outside}.`]
  const { phase, pole, volts120 } = lowest
  return [
    `${outside}; lowest beyond it is phase ${phase} at pole ${pole} with ${volts120.toFixed(1)} V.`,
  ]
}

function moreOutside({ customersOutside, customersOutsideInService }: BypassedCase): number {
  return customersOutside - customersOutsideInService
}

function lowestVolts({ lowest }: BypassedCase): number {
  return lowest?.volts120 ?? Number.POSITIVE_INFINITY
}

/** As far as it goes, and its reading still outside the band. */
function isAtEnd({ relayVolts, tap }: ExpectedReading, bank: BankWork['regulator']): boolean {
  const { bandCentreV, bandwidthV, maxLower, maxRaise } = bank
  const offV = relayVolts - bandCentreV
  return offV < -bandwidthV / 2 ? tap >= maxRaise : offV > bandwidthV / 2 && tap <= -maxLower
}
