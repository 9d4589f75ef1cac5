import { type Phase, phaseMask, phasesOfMask } from '#domain/units/phases.ts'
import type { Regulator } from '../feeder/equipment.ts'
import type { AsLeft, MeasureAsLeft, SettingsAsLeft, UnitAsLeft } from './as-left.ts'
import { leftOutWork } from './bird-work-left-out.ts'
import { leavesInService, setsUnits } from './is-bank-kind.ts'
import type { JobEntry } from './job-entry.ts'
import type { JobPlan, PoleWork } from './job-plan.ts'
import { shortNumber } from './short-number.ts'

export interface Deviation {
  readonly what: string
  readonly planned: string
  readonly built: string
}

const NOT_RECORDED = 'not recorded'
/** An arm is not built nearer than this (common practice, no source). */
const SAME_M = 0.03

/** Every difference between what was handed out and what was done and left, the bank first. */
export function builtAgainstPlan(
  plan: JobPlan,
  asLeft: AsLeft,
  entries: readonly JobEntry[],
): Deviation[] {
  return [
    ...bankDeviations(plan, asLeft),
    ...plan.poles.flatMap((work) => measureDeviations(work, asLeft)),
    ...unplannedMeasures(plan, asLeft),
    ...leftOutWork(asLeft, entries).map(({ what, words }) => ({
      what: `${what}, its step`,
      planned: 'to be done',
      built: words,
    })),
  ]
}

function bankDeviations(plan: JobPlan, asLeft: AsLeft): Deviation[] {
  const { bank, kind } = plan
  if (!bank || kind === 'remove a bank') return []
  const { regulator } = bank
  const phases = phasesOfMask(phaseMask(regulator.phases))
  return [
    ...phases.flatMap((phase) => {
      const unit = asLeft.units.find((each) => each.phase === phase)
      const name = `${phase} unit`
      if (!unit) return [{ what: name, planned: 'to be recorded', built: NOT_RECORDED }]
      return [
        ...(setsUnits(kind) ? nameplateDeviations(name, unit, regulator) : []),
        ...tapDeviations(name, unit, plan),
      ]
    }),
    ...asLeft.units
      .filter(({ phase }) => !phases.includes(phase))
      .map(({ phase }) => ({ what: `${phase} unit`, planned: 'none', built: 'recorded' })),
    // A control that is left out of use may go unread.
    ...(leavesInService(kind) || asLeft.settings
      ? settingDeviations(regulator, asLeft.settings)
      : []),
  ]
}

function nameplateDeviations(
  name: string,
  { ratingA, ratingKva, serialNumber }: UnitAsLeft,
  planned: Regulator,
): Deviation[] {
  return [
    ...figure(`${name}, rating`, 'kVA', planned.ratingKva, ratingKva),
    ...figure(`${name}, rated current`, 'A', planned.ratingA, ratingA),
    ...(serialNumber.trim() === ''
      ? [{ what: `${name}, serial number`, planned: 'to be recorded', built: NOT_RECORDED }]
      : []),
  ]
}

/** Where the plan names no figure there is nothing to deviate from. */
function figure(
  what: string,
  unit: string,
  planned: number | undefined,
  built: number | undefined,
): Deviation[] {
  if (planned === undefined || planned === built) return []
  return [
    {
      what,
      planned: `${planned} ${unit}`,
      built: built === undefined ? NOT_RECORDED : `${built} ${unit}`,
    },
  ]
}

/** The band is wider than a step, so a control may rest one step to either side. */
const STEPS_EITHER_SIDE = 1

/**
 * Left outside all positions that the power flow expects, from the lightest case to the heaviest; of
 * a unit that is left off the line, anywhere but at neutral, where it was proven before the bypass.
 */
function tapDeviations(name: string, { phase, tapLeft }: UnitAsLeft, plan: JobPlan): Deviation[] {
  const what = `${name}, position left`
  if (tapLeft === undefined) {
    return [{ what, planned: 'to be recorded', built: NOT_RECORDED }]
  }
  if (plan.kind === 'take a bank out of service') {
    return tapLeft === 0 ? [] : [{ what, planned: 'neutral', built: signed(tapLeft) }]
  }
  const expected = expectedTaps(plan, phase)
  if (expected.length === 0) return []
  const [low, high] = [Math.min(...expected), Math.max(...expected)]
  if (tapLeft >= low - STEPS_EITHER_SIDE && tapLeft <= high + STEPS_EITHER_SIDE) return []
  const range = low === high ? signed(low) : `${signed(low)} to ${signed(high)}`
  return [{ what, planned: `${range} expected`, built: signed(tapLeft) }]
}

function expectedTaps({ expected }: JobPlan, phase: Phase): number[] {
  return expected.flatMap(({ readings }) =>
    readings.filter((reading) => reading.phase === phase).map(({ tap }) => tap),
  )
}

const SETTINGS: readonly (readonly [keyof SettingsAsLeft, string, string])[] = [
  ['bandCentreV', 'Band centre', 'V'],
  ['bandwidthV', 'Bandwidth', 'V'],
  ['delayS', 'Time delay', 's'],
  ['rV', 'Line-drop compensation R', 'V'],
  ['xV', 'Line-drop compensation X', 'V'],
  ['ptRatio', 'Potential ratio', ': 1'],
  ['ctPrimaryA', 'Current transformer primary', 'A'],
  ['maxRaise', 'Limit of raise', 'steps'],
  ['maxLower', 'Limit of lower', 'steps'],
]

function settingDeviations(planned: Regulator, built: SettingsAsLeft | undefined): Deviation[] {
  if (!built) return [{ what: 'Settings', planned: 'to be recorded', built: NOT_RECORDED }]
  return SETTINGS.filter(([key]) => !isSame(planned[key], built[key])).map(([key, what, unit]) => ({
    what,
    planned: `${short(planned[key])} ${unit}`,
    built: `${short(built[key])} ${unit}`,
  }))
}

/** A computed ratio has more decimals than a control shows. */
const SAME_SHARE = 0.0005

function isSame(planned: number, built: number): boolean {
  return Math.abs(planned - built) <= SAME_SHARE * Math.max(1, Math.abs(planned))
}

function measureDeviations({ pole, measures }: PoleWork, asLeft: AsLeft): Deviation[] {
  return measures.flatMap((planned) => {
    const what = `${planned.kind} on pole ${pole}`
    const wanted = partsInWords(planned.partIds)
    const built = asLeft.measures.filter(
      (each) => each.pole === pole && each.measure === planned.kind,
    )
    const done = built.filter(({ isDone }) => isDone)
    if (done.length === 0) return [{ what, planned: wanted, built: notDone(built) }]
    return [
      ...missingParts(what, planned.partIds, done),
      ...dimensionDeviations(what, planned.dimensionM, done),
    ]
  })
}

function notDone(built: readonly MeasureAsLeft[]): string {
  const [why] = built.flatMap((each) => (each.why?.trim() ? [each.why.trim()] : []))
  if (built.length === 0) return NOT_RECORDED
  return why === undefined ? 'not done, no reason given' : `not done: ${why}`
}

function missingParts(
  what: string,
  planned: readonly string[],
  done: readonly MeasureAsLeft[],
): Deviation[] {
  const covered = new Set(done.flatMap(({ partIds }) => partIds))
  const missing = planned.filter((id) => !covered.has(id))
  if (missing.length === 0) return []
  return [{ what, planned: partsInWords(planned), built: `not on ${missing.join(', ')}` }]
}

function dimensionDeviations(
  what: string,
  planned: number | undefined,
  done: readonly MeasureAsLeft[],
): Deviation[] {
  if (planned === undefined) return []
  const [built] = done.flatMap(({ dimensionM }) => dimensionM ?? [])
  if (built !== undefined && Math.abs(built - planned) <= SAME_M) return []
  return [
    {
      what: `${what}, dimension`,
      planned: `${planned.toFixed(2)} m`,
      built: built === undefined ? NOT_RECORDED : `${built.toFixed(2)} m`,
    },
  ]
}

function unplannedMeasures({ poles }: JobPlan, { measures }: AsLeft): Deviation[] {
  return measures
    .filter(({ isDone }) => isDone)
    .filter(
      ({ pole, measure }) =>
        !poles.some((work) => work.pole === pole && work.measures.some((m) => m.kind === measure)),
    )
    .map(({ pole, measure, partIds }) => ({
      what: `${measure} on pole ${pole}`,
      planned: 'none',
      built: partsInWords(partIds),
    }))
}

function partsInWords(partIds: readonly string[]): string {
  if (partIds.length === 0) return 'done'
  return `on ${partIds.length} part${partIds.length === 1 ? '' : 's'}`
}

function signed(tap: number): string {
  return tap > 0 ? `+${tap}` : `${tap}`.replace('-', '−')
}

function short(value: number): string {
  return shortNumber(value).replace('-', '−')
}
