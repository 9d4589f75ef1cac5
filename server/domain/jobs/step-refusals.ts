import type { Phase } from '#domain/units/phases.ts'
import { NOT_PROVEN, takeAction } from './bank-switches.ts'
import { bypassInWords } from './bypass-current.ts'
import { cutTo } from './cut-to.ts'
import type { ReadValue, StepDone, StepLeftOut } from './job-entry.ts'
import type { JobPlan } from './job-plan.ts'
import { type AskedVerdict, judgeValues, proofOf } from './judge-asked.ts'
import { isOpen, type PoleRun, phasesOf, readAt, type StepPlace } from './pole-run.ts'
import { isGiven } from './read-at.ts'
import type { Asked, Step } from './step-sequence.ts'
import { stopsStep } from './stops-step.ts'
import type { UnitAction } from './unit-action.ts'

const MOST_LETTERS = 80

/** A step in a sentence: the beginning of its text, and its unit. */
export function stepInWords({ step, phase }: Pick<StepPlace, 'step' | 'phase'>): string {
  const short = cutTo(MOST_LETTERS, step.text)
  return phase ? `“${short}” at unit ${phase}` : `“${short}”`
}

/** Why there is no such step, where an entry names one that is not there. */
export function noSuchStep(pole: PoleRun, entry: StepDone | StepLeftOut): string {
  const step = pole.work.sequence.steps.find(({ id }) => id === entry.stepId)
  if (!step) return `There is no step ${entry.stepId} at pole ${pole.work.pole}.`
  const units = phasesOf(pole, undefined)
  if (step.each === 'once')
    return `${stepInWords({ step })} is done once at the pole, not at a unit.`
  return units.length > 0
    ? `${stepInWords({ step })} is done at each unit: say which of ${units.join(', ')}.`
    : `${stepInWords({ step })} is done at each unit, and pole ${pole.work.pole} has none.`
}

/** Everything that speaks against passing a step so; empty where nothing does. */
export function stepRefusals(
  plan: JobPlan,
  pole: PoleRun,
  place: StepPlace,
  entry: StepDone | StepLeftOut,
): string[] {
  const turn = turnRefusals(pole, place)
  if (turn.length > 0) return turn
  const own =
    entry.kind === 'step left out' ? leavingRefusals(place) : doneRefusals(plan, pole, place, entry)
  return [...signerRefusals(place.step, entry.signedBy), ...own]
}

function turnRefusals(pole: PoleRun, place: StepPlace): string[] {
  if (!isOpen(place)) {
    const how = place.status === 'done' ? 'is done' : 'was left out'
    return [`${stepInWords(place)} ${how} already.`]
  }
  if (place.status === 'next') return []
  const first = pole.places.find(isOpen)
  return first ? [`Not yet: ${stepInWords(first)} comes before it.`] : []
}

function leavingRefusals(place: StepPlace): string[] {
  if (place.step.isHoldPoint) {
    return [`${stepInWords(place)} is a hold point, and a hold point is never left out.`]
  }
  return place.step.mayBeLeftOut ? [] : [`${stepInWords(place)} may not be left out.`]
}

/** Two different people, however their names are written. */
function signerRefusals({ signedBy }: Step, names: readonly string[]): string[] {
  if (signedBy !== 'two of the crew') return []
  const different = new Set(names.map((name) => name.trim().replace(/\s+/g, ' ').toLowerCase()))
  return different.size >= 2 ? [] : ['Two of the crew sign this step: enter two different names.']
}

const ONE_PROOF_FOR_MANY =
  'Each unit has a tap of its own and is proven by its own signs: one reading proves no bank. The order of steps has to ask at each unit.'

function doneRefusals(plan: JobPlan, pole: PoleRun, place: StepPlace, entry: StepDone): string[] {
  const { step, phase } = place
  const at = readAt(plan, pole, phase)
  const verdicts = judgeValues(step, entry.values, at)
  const proof = step.action === 'prove neutral' ? proofOf(step, entry.values, at) : null
  return [
    ...valueRefusals(step, entry.values),
    ...verdicts.filter((verdict) => stopsStep(step, verdict)).map(({ words }) => words),
    ...(proof && !proof.isProven ? [proof.words] : []),
    ...(proof && at.phases.length > 1 ? [ONE_PROOF_FOR_MANY] : []),
    ...remarkRefusals(step, verdicts, entry.remark),
    ...(step.action ? actionRefusals(plan, pole, phase, step.action) : []),
  ]
}

function remarkRefusals(
  step: Step,
  verdicts: readonly AskedVerdict[],
  remark: string | undefined,
): string[] {
  if (remark?.trim()) return []
  return verdicts
    .filter((verdict) => verdict.verdict !== 'good' && !stopsStep(step, verdict))
    .map(({ words }) => `${words} This passes only with a remark.`)
}

function valueRefusals(step: Step, values: Readonly<Record<string, ReadValue>>): string[] {
  const known = new Set(step.asks.map(({ id }) => id))
  const unknown = Object.keys(values).filter((id) => !known.has(id))
  return [
    ...unknown.map((id) => `This step does not ask for ${id}.`),
    ...step.asks.flatMap((asked) => valueRefusal(asked, values[asked.id]) ?? []),
  ]
}

const TYPES = {
  number: 'number',
  'yes or no': 'boolean',
  choice: 'string',
  text: 'string',
} as const
const FORMS: Readonly<Record<Asked['kind'], string>> = {
  number: 'a number',
  'yes or no': 'yes or no',
  choice: 'one of its choices',
  text: 'words',
}

function valueRefusal(asked: Asked, value: ReadValue | undefined): string | null {
  if (!isGiven(value)) return asked.isNeeded ? `“${asked.what}” is needed.` : null
  const isOfKind = typeof value === TYPES[asked.kind]
  const isChoice = asked.kind !== 'choice' || asked.options.some((option) => option === value)
  if (!isOfKind || !isChoice) return `“${asked.what}” takes ${FORMS[asked.kind]}.`
  return asked.kind === 'number' && typeof value === 'number' ? rangeRefusal(asked, value) : null
}

/** What no unit, meter or counter can read is a slip, and is found here rather than steps later. */
function rangeRefusal(
  { what, least, most, unit }: Extract<Asked, { kind: 'number' }>,
  value: number,
): string | null {
  const isOut = (least !== undefined && value < least) || (most !== undefined && value > most)
  if (!isOut) return null
  const range =
    most === undefined
      ? `${least} or more`
      : least === undefined
        ? `${most} or less`
        : `${least} to ${most}`
  return `“${what}” takes ${`${range} ${unit}`.trim()}, not ${value}.`
}

function actionRefusals(
  plan: JobPlan,
  pole: PoleRun,
  phase: Phase | undefined,
  action: UnitAction,
): string[] {
  return phasesOf(pole, phase).flatMap((each) => {
    const state = pole.states[each]
    const outcome = state && takeAction(state, action)
    if (!outcome || outcome.ok) return []
    return outcome.why.map((why) => `Unit ${each}: ${why}${figures(plan, why)}`)
  })
}

/** What closing it off neutral would do, after a sentence that asks for neutral. */
function figures({ bank }: JobPlan, why: string): string {
  return bank && why === NOT_PROVEN ? ` ${bypassInWords(bank.neutralV, bank.loopOhm)}` : ''
}
