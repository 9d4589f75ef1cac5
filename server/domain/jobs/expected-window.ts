import type { Phase } from '#domain/units/phases.ts'
import type { ExpectedReading, JobPlan, MistakeSign } from './job-plan.ts'

export type WindowJudge =
  | 'source volts as expected'
  | 'load volts as expected'
  | 'current as expected'

/** Either side of the expected volts, for meters and for loads between the cases: an assumption. */
const VOLTS_TOLERANCE_PCT = 2.5
/** Either side of the expected current, which goes with the load of the hour: an assumption. */
const CURRENT_TOLERANCE_PCT = 30

/** How the unit stands while it is read. */
export interface ReadWhile {
  /** At neutral, or off the line with the line running past it: load volts are then source volts. */
  readonly isSameBothSides: boolean
  /** A way past the unit is closed, and takes its share of the current. */
  readonly isBridged: boolean
}

/** Between which figures a reading is expected, in the unit that it is read in. */
export interface Window {
  readonly low: number
  readonly high: number
  /** "Peak, Light; 2.5 % either side". */
  readonly basis: string
}

/** Whether a step asks for volts as the control shows them, by its potential ratio: "V on 120". */
export const isOn120 = (unit: string) => unit.includes('120')

function expectedOf(
  { bank }: JobPlan,
  judge: WindowJudge,
  reading: ExpectedReading,
  unit: string,
  while_: ReadWhile,
): number {
  if (judge === 'current as expected') return reading.amps
  const isLoad = judge === 'load volts as expected' && !while_.isSameBothSides
  const volts = isLoad ? reading.loadV : reading.sourceV
  if (isOn120(unit) && bank) return volts / bank.regulator.ptRatio
  return unit.toLowerCase() === 'kv' ? volts / 1000 : volts
}

function readingsOf(plan: JobPlan, phases: readonly Phase[]): ExpectedReading[] {
  return plan.expected.flatMap(({ readings }) =>
    readings.filter(({ phase }) => phases.includes(phase)),
  )
}

/** What is read, and where. */
export interface WindowRead {
  readonly plan: JobPlan
  readonly judge: WindowJudge
  readonly phases: readonly Phase[]
  readonly unit: string
  readonly while: ReadWhile
}

/** The window over all cases of the plan, or null where the power flow expects nothing there. */
export function expectedWindow(read: WindowRead): Window | null {
  const { plan, judge, phases, unit } = read
  const all = readingsOf(plan, phases).map((each) =>
    expectedOf(plan, judge, each, unit, read.while),
  )
  if (all.length === 0) return null
  const isCurrent = judge === 'current as expected'
  const tolerance = isCurrent ? CURRENT_TOLERANCE_PCT : VOLTS_TOLERANCE_PCT
  const low = Math.min(...all) * (1 - tolerance / 100)
  return {
    low: isCurrent && read.while.isBridged ? 0 : low,
    high: Math.max(...all) * (1 + tolerance / 100),
    basis: `${plan.expected.map(({ caseName }) => caseName).join(', ')}; ${tolerance} % either side`,
  }
}

/** A reading that lies outside its window. */
export interface Outside extends WindowRead {
  readonly value: number
  readonly window: Window
}

/** Which of the plan's mistakes could have made a reading that lies outside its window. */
export function mistakesThatFit(outside: Outside): readonly MistakeSign[] {
  return outside.plan.mistakes.filter(
    ({ mistake, phase }) =>
      (phase === undefined || outside.phases.includes(phase)) && FITS[mistake](outside),
  )
}

const FITS: Readonly<Record<MistakeSign['mistake'], (outside: Outside) => boolean>> = {
  'source and load leads swapped': (outside) =>
    outside.judge !== 'current as expected' &&
    !outside.while.isSameBothSides &&
    (outside.judge === 'source volts as expected' || isAgainstTheTap(outside)),
  'polarity of one unit reversed': (outside) =>
    outside.judge === 'load volts as expected' && isAgainstTheTap(outside),
  // At neutral a wrong ratio shows only in what the control makes of the volts.
  'wrong potential ratio': ({ judge, unit, while: { isSameBothSides } }) =>
    judge !== 'current as expected' &&
    (isOn120(unit) || (judge === 'load volts as expected' && !isSameBothSides)),
  'phases rolled': isOfAnotherPhase,
}

/** Lower than expected where the unit should raise, higher where it should lower. */
function isAgainstTheTap({
  plan,
  phases,
  value,
  window,
  while: { isSameBothSides },
}: Outside): boolean {
  if (isSameBothSides) return false
  const isBelow = value < window.low
  return readingsOf(plan, phases).some(({ tap }) => (isBelow ? tap > 0 : tap < 0))
}

/** What was read would be right on another phase. */
function isOfAnotherPhase(outside: Outside): boolean {
  const { plan, phases, value } = outside
  const others = new Set(
    plan.expected.flatMap(({ readings }) => readings.map(({ phase }) => phase)),
  )
  return [...others]
    .filter((phase) => !phases.includes(phase))
    .map((phase) => expectedWindow({ ...outside, phases: [phase] }))
    .some((window) => window !== null && value >= window.low && value <= window.high)
}
