import { magnitude, subtract } from '#domain/units/complex.ts'
import type { Phase } from '#domain/units/phases.ts'
import { lineVoltsInWords } from '#domain/units/rounded-volts.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { LoadCase } from '../feeder/header.ts'
import { PT_RATIOS } from '../siting/standard-units.ts'
import { type BankBench, bankBench } from './bank-bench.ts'
import type { BankWork, MistakeSign } from './job-plan.ts'
import { positionInWords } from './position-in-words.ts'
import { shortNumber } from './short-number.ts'
import {
  held,
  leftToControl,
  otherWindingType,
  powerKw,
  reversedPolarity,
  rightWiring,
  type Settled,
  swappedLeads,
  type Wiring,
  wrongRatio,
} from './wrong-wiring.ts'

/** A meter or a control is taken to be right to this, volts on the 120 V base (common practice, no source). */
export const METER_TOLERANCE_VOLTS120 = 1
/** And a clamp meter to this share of what it reads, and at least an ampere (common practice, no source). */
const METER_TOLERANCE_AMPS_SHARE = 0.05
const LEAST_TOLERANCE_A = 1
/** A control tells a direction above this share of its rated current: 1 to 5 %, from memory. */
const DIRECTION_SHARE = 0.05
/** Raised by hand to see which way the volts go; enough to be well beyond the tolerance. */
const TRIAL_STEPS = 4
/** Ratios nearer to each other than this are taken for the same. */
const SAME_RATIO_SHARE = 0.005

/**
 * What would be read if the bank had been connected or set wrongly, beside what should be. Each
 * mistake is solved: by hand a few steps off neutral, and left to its control in every case. Where
 * figures differ by less than a meter can tell, that is what the sign says.
 */
export function mistakeSigns(feeder: Feeder, work: BankWork): MistakeSign[] {
  const right = bankBench(feeder, work.regulator, work.standing?.id)
  const swapped = bankBench(feeder, otherWindingType(work.regulator), work.standing?.id)
  if (right.status === 'not solved' || swapped.status === 'not solved') return []
  const trial = trialOf(feeder, work, right)
  if (trial.cases.length === 0) return []
  return [
    swappedSigns(trial, swapped),
    ...right.phases.map((phase) => polaritySigns(trial, phase)),
    ...ratioSigns(trial),
    ...rolledSigns(trial),
  ]
}

/** What every mistake is held against. */
interface Trial {
  readonly work: BankWork
  readonly bench: BankBench
  /** Cases that can be solved with the bank connected rightly, heaviest first. */
  readonly cases: readonly RightCase[]
}

interface RightCase {
  readonly loadCase: LoadCase
  readonly left: Settled
  readonly amps: number
}

function trialOf({ header }: Feeder, work: BankWork, bench: BankBench): Trial {
  const wiring = rightWiring(work.regulator)
  const cases = header.cases.flatMap((loadCase) => {
    const left = leftToControl(bench, wiring, loadCase, work.regulator)
    if (left.status === 'not solved') return []
    const amps = bench.phases.reduce((sum, phase) => sum + ampsAt(left, phase), 0)
    return [{ loadCase, left, amps }]
  })
  return { work, bench, cases: cases.toSorted((a, b) => b.amps - a.amps) }
}

function swappedSigns(trial: Trial, bench: BankBench): MistakeSign {
  const wiring = swappedLeads(trial.work.regulator)
  return {
    mistake: 'source and load leads swapped',
    signs: [
      ...byHand(trial, bench, wiring, trial.bench.phases),
      ...byControl(trial, bench, wiring, trial.bench.phases),
      ...backwardPower(trial, bench, wiring),
    ],
  }
}

function polaritySigns(trial: Trial, phase: Phase): MistakeSign {
  const wiring = reversedPolarity(trial.work.regulator, phase)
  return {
    mistake: 'polarity of one unit reversed',
    phase,
    signs: [
      ...byHand(trial, trial.bench, wiring, [phase]),
      ...byControl(trial, trial.bench, wiring, [phase]),
    ],
  }
}

function ratioSigns(trial: Trial): MistakeSign[] {
  const signs = neighbourRatios(trial.work.regulator.ptRatio).flatMap((ratio) => {
    const wiring = wrongRatio(trial.work.regulator, ratio)
    const name = `Ratio ${ratio} in place of ${shortNumber(trial.work.regulator.ptRatio)}: `
    return [
      ...atNeutral(trial, wiring, name),
      ...byControl(trial, trial.bench, wiring, trial.bench.phases, name),
    ]
  })
  return signs.length > 0 ? [{ mistake: 'wrong potential ratio', signs }] : []
}

function neighbourRatios(ptRatio: number): number[] {
  const ratios = PT_RATIOS.map(([, ratio]) => ratio).toSorted((a, b) => a - b)
  const isOther = (ratio: number) => Math.abs(ratio / ptRatio - 1) > SAME_RATIO_SHARE
  const below = ratios.findLast((ratio) => ratio < ptRatio && isOther(ratio))
  const above = ratios.find((ratio) => ratio > ptRatio && isOther(ratio))
  return [below, above].filter((ratio) => ratio !== undefined)
}

/** Raised a few steps in manual, or lowered where the range has no raise. */
function byHand(
  trial: Trial,
  bench: BankBench,
  wiring: Wiring,
  phases: readonly Phase[],
): string[] {
  const { regulator } = trial.work
  const steps =
    regulator.maxRaise > 0
      ? Math.min(TRIAL_STEPS, regulator.maxRaise)
      : -Math.min(TRIAL_STEPS, regulator.maxLower)
  const [first] = trial.cases
  if (!first || steps === 0) return []
  const { loadCase } = first
  const neutral = held(bench, wiring, loadCase, 0)
  const wrong = held(bench, wiring, loadCase, steps)
  const right = held(trial.bench, rightWiring(regulator), loadCase, steps)
  if (
    neutral.status === 'not solved' ||
    wrong.status === 'not solved' ||
    right.status === 'not solved'
  ) {
    return []
  }
  const phase = mostDifferent(phases, (each) => loadV(wrong, each) - loadV(right, each))
  const difference120 = Math.abs(volts120(trial, loadV(wrong, phase) - loadV(right, phase)))
  const move = `${steps > 0 ? 'raised' : 'lowered'} ${Math.abs(steps)} steps in manual from neutral`
  if (difference120 <= METER_TOLERANCE_VOLTS120) {
    return [`It would not show when ${move}: the load side is within ${TOLERANCE}.`]
  }
  const goes =
    steps > 0 === loadV(wrong, phase) > loadV(neutral, phase) ? 'go' : 'go the wrong way,'
  const reads = `the control goes from ${volts1(readsOf(neutral, phase))} to ${volts1(readsOf(wrong, phase))}`
  return [
    `${capital(move)} (${loadCase.name}), load volts of ${phase} ${goes} from ${lineVoltsInWords(loadV(neutral, phase))} to ${lineVoltsInWords(loadV(wrong, phase))}, where ${lineVoltsInWords(loadV(right, phase))} is right; ${reads}, where ${volts1(readsOf(right, phase))} is right.`,
  ]
}

interface InCase {
  readonly loadCase: LoadCase
  readonly right: Settled
  readonly wrong: Settled
  /** The unit on which it shows most, and by how many volts of load on the 120 V base. */
  readonly phase: Phase
  readonly difference120: number
}

/** Left to the control in every case: figures of the one in which it shows most, and where it does not. */
function byControl(
  trial: Trial,
  bench: BankBench,
  wiring: Wiring,
  phases: readonly Phase[],
  name = '',
): string[] {
  const found: InCase[] = []
  const unsolved: string[] = []
  for (const { loadCase, left: right } of trial.cases) {
    const wrong = leftToControl(bench, wiring, loadCase, trial.work.regulator)
    if (wrong.status === 'not solved') {
      unsolved.push(`${startOf(name)} it could not be solved: ${wrong.what}`)
      continue
    }
    const offV = (phase: Phase) => loadV(wrong, phase) - loadV(right, phase)
    const phase = mostDifferent(phases, offV)
    const difference120 = Math.abs(volts120(trial, offV(phase)))
    found.push({ loadCase, right, wrong, phase, difference120 })
  }
  const isShown = ({ difference120 }: InCase) => difference120 > METER_TOLERANCE_VOLTS120
  const [most] = found.filter(isShown).toSorted((a, b) => b.difference120 - a.difference120)
  const hidden = found.filter((each) => !isShown(each)).map(({ loadCase }) => loadCase.name)
  return [
    ...(most ? [controlSentence(trial, most, name)] : []),
    ...(hidden.length > 0
      ? [
          `${startOf(name)} it would not show in ${hidden.join(', ')}: load volts come within ${TOLERANCE}.`,
        ]
      : []),
    ...unsolved,
  ]
}

function startOf(name: string): string {
  return name === '' ? 'Left to its control' : `${name}left to its control`
}

function controlSentence(
  trial: Trial,
  { loadCase, phase, right, wrong }: InCase,
  name: string,
): string {
  const { maxLower, maxRaise } = trial.work.regulator
  const position = wrong.positions[phase] ?? 0
  const isAtEnd = position !== 0 && (position === maxRaise || position === -maxLower)
  const moves = isAtEnd ? 'runs to the end of its range,' : 'comes to rest at'
  return [
    `${startOf(name)} (${loadCase.name}) the ${phase} unit ${moves} ${positionInWords(position)}, where ${positionInWords(right.positions[phase] ?? 0)} is right;`,
    `load volts ${onBothBases(trial, loadV(wrong, phase))}, where ${onBothBases(trial, loadV(right, phase))} is right;`,
    `the control reads ${volts1(readsOf(wrong, phase))}, where ${volts1(readsOf(right, phase))} is right.`,
  ].join(' ')
}

const TOLERANCE = `${METER_TOLERANCE_VOLTS120.toFixed(1)} V (120 V base, as near as meters tell: common practice, no source) of what is right`

/** The current comes in at the L terminal, so a control that tells directions reads it backward. */
function backwardPower({ cases, work }: Trial, bench: BankBench, wiring: Wiring): string[] {
  const [first] = cases
  if (!first) return []
  const neutral = held(bench, wiring, first.loadCase, 0)
  if (neutral.status === 'not solved') return []
  const phase = mostDifferent(bench.phases, (each) => {
    const unit = neutral.units[each]
    return unit ? powerKw(unit) : 0
  })
  const unit = neutral.units[phase]
  if (!unit) return []
  const kw = powerKw(unit)
  const { neutralV, regulator } = work
  if (Math.abs(kw) * 1000 <= DIRECTION_SHARE * regulator.ctPrimaryA * neutralV) {
    return [
      `It would not show by the direction of power (${first.loadCase.name}): too little flows for a control to tell.`,
    ]
  }
  const [reads, right] = kw > 0 ? ['reverse', 'forward'] : ['forward', 'reverse']
  return [
    `A control that tells the direction of power reads about ${Math.abs(kw).toFixed(0)} kW ${reads} on ${phase} (${first.loadCase.name}), where ${right} is right; in a mode that acts on it, it would move otherwise than said here.`,
  ]
}

/** What the control reads before anything has moved, held against volts over the right ratio. */
function atNeutral(trial: Trial, wiring: Wiring, name: string): string[] {
  const [first] = trial.cases
  if (!first) return []
  const wrong = held(trial.bench, wiring, first.loadCase, 0)
  const right = held(trial.bench, rightWiring(trial.work.regulator), first.loadCase, 0)
  if (wrong.status === 'not solved' || right.status === 'not solved') return []
  const phase = mostDifferent(
    trial.bench.phases,
    (each) => readsOf(wrong, each) - readsOf(right, each),
  )
  const [reads, rightly] = [readsOf(wrong, phase), readsOf(right, phase)]
  if (Math.abs(reads - rightly) <= METER_TOLERANCE_VOLTS120) {
    return [`${name}it would not show at neutral: the control reads within ${TOLERANCE}.`]
  }
  return [
    `${name}at neutral (${first.loadCase.name}) the control of ${phase} reads ${volts1(reads)} with ${lineVoltsInWords(loadV(right, phase))} on the line, where ${volts1(rightly)} is right.`,
  ]
}

/**
 * Leads of three phases moved on by one, of two exchanged. On the load side alone source and load of
 * each unit are then different phases; on both sides each unit regulates the next phase.
 */
function rolledSigns(trial: Trial): MistakeSign[] {
  const { phases } = trial.bench
  const [first] = trial.cases
  if (phases.length < 2 || !first) return []
  const across = acrossRolled(trial, first.loadCase)
  const through = rolledOnBothSides(trial, first)
  return [{ mistake: 'phases rolled', signs: [...across, ...through] }]
}

function acrossRolled(trial: Trial, loadCase: LoadCase): string[] {
  const { bench, work } = trial
  const neutral = held(bench, rightWiring(work.regulator), loadCase, 0)
  if (neutral.status === 'not solved') return []
  const [phase] = bench.phases
  const next = phase && nextPhase(bench.phases, phase)
  const [own, other] = [phase && neutral.units[phase], next && neutral.units[next]]
  if (!own || !other) return []
  const acrossV = magnitude(subtract(own.source, other.load))
  return [
    `Load leads alone moved on by one phase: at neutral a meter from source to load of the ${phase} unit reads ${lineVoltsInWords(acrossV)}, where near 0 V is right. Closing its bypass would be a short circuit between ${phase} and ${next}.`,
  ]
}

function rolledOnBothSides(trial: Trial, { left, loadCase }: RightCase): string[] {
  const { phases } = trial.bench
  const off = (phase: Phase) => {
    const next = nextPhase(phases, phase)
    const [rightA, wrongA] = [ampsAt(left, phase), ampsAt(left, next)]
    const toleranceA = Math.max(LEAST_TOLERANCE_A, rightA * METER_TOLERANCE_AMPS_SHARE)
    const off120 = Math.abs(volts120(trial, sourceV(left, next) - sourceV(left, phase)))
    return {
      amps: Math.abs(wrongA - rightA) / toleranceA,
      volts: off120 / METER_TOLERANCE_VOLTS120,
    }
  }
  const start = 'Leads of both sides moved on by one phase'
  const phase = mostDifferent(phases, (each) => Math.max(off(each).amps, off(each).volts))
  const most = off(phase)
  if (most.amps <= 1 && most.volts <= 1) {
    return [
      `${start}: it would not show in ${loadCase.name}, where phases differ by less than ${METER_TOLERANCE_VOLTS120.toFixed(1)} V (120 V base) and ${(METER_TOLERANCE_AMPS_SHARE * 100).toFixed(0)} % of the amperes. Only phasing out each lead shows it.`,
    ]
  }
  const next = nextPhase(phases, phase)
  return [
    `${start} (${loadCase.name}): the unit marked ${phase} reads what ${next} carries: ${ampsAt(left, next).toFixed(1)} A where ${ampsAt(left, phase).toFixed(1)} A is right, source volts ${lineVoltsInWords(sourceV(left, next))} where ${lineVoltsInWords(sourceV(left, phase))} is right, position ${positionInWords(left.positions[next] ?? 0)} where ${positionInWords(left.positions[phase] ?? 0)} is right.`,
  ]
}

function nextPhase(phases: readonly Phase[], phase: Phase): Phase {
  return phases[(phases.indexOf(phase) + 1) % phases.length] ?? phase
}

function mostDifferent(phases: readonly Phase[], offBy: (phase: Phase) => number): Phase {
  const [first] = phases.toSorted((a, b) => Math.abs(offBy(b)) - Math.abs(offBy(a)))
  if (!first) throw new Error('Expected a bank with at least one unit, got none.')
  return first
}

function loadV({ units }: Settled, phase: Phase): number {
  const unit = units[phase]
  return unit ? magnitude(unit.load) : Number.NaN
}

function sourceV({ units }: Settled, phase: Phase): number {
  const unit = units[phase]
  return unit ? magnitude(unit.source) : Number.NaN
}

function ampsAt({ units }: Settled, phase: Phase): number {
  const unit = units[phase]
  return unit ? magnitude(unit.current) : 0
}

function readsOf({ reads }: Settled, phase: Phase): number {
  return reads[phase] ?? Number.NaN
}

function volts120({ work }: Trial, value: number): number {
  return (value / work.neutralV) * BASE_VOLTS120
}

function volts1(value: number): string {
  return `${value.toFixed(1)} V`
}

function onBothBases(trial: Trial, value: number): string {
  return `${lineVoltsInWords(value)} (${volts120(trial, value).toFixed(1)})`
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
