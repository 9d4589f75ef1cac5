import { isCoverKind } from '../avian/measures/cover-parts.ts'
import { poleSites } from '../avian/pole-top/pole-sites.ts'
import type { PoleTop } from '../avian/pole-top/pole-top.ts'
import { poleTopOf } from '../avian/pole-top/pole-top-of.ts'
import { solveFeeder } from '../electrical/solve-feeder.ts'
import type { Protection } from '../feeder/birds.ts'
import type { Regulator } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { Finding } from '../feeder/finding.ts'
import { isBypassed } from '../feeder/is-bypassed.ts'
import { checkFeeder } from '../network/check-feeder.ts'
import type { AsLeft, MeasureAsLeft } from './as-left.ts'
import { customersAre, feederLimits } from './feeder-limits.ts'
import { feederWithBank } from './feeder-with-bank.ts'
import { itemOfMeasure, type NewItem } from './item-of-measure.ts'
import { measureOfItem, partsOfItem, sitsOnBank } from './items-on-bank.ts'
import type { JobKind } from './job-kind.ts'
import type { BankWork, JobPlan } from './job-plan.ts'
import { type RegulatorAsLeft, regulatorAsLeft, settingsOf } from './regulator-as-left.ts'

export interface AsBuilt {
  readonly feeder: Feeder
  /** Items that are on the poles now. */
  readonly addItems: readonly NewItem[]
  /** Ids of items that are `removed` now: replaced, or gone with the bank that bore them. */
  readonly endItems: readonly string[]
  /** What was not taken over, and what somebody should look at, in sentences. */
  readonly notes: readonly string[]
}

/**
 * What stands once a job is closed: the feeder with the bank as left and nothing else moved, and what
 * changes among the items of its poles. Whatever would leave a feeder that cannot be solved is not
 * taken over and said.
 *
 * @param feeder As recorded now, with the items of the record.
 */
export function asBuilt(feeder: Feeder, plan: JobPlan, asLeft: AsLeft): AsBuilt {
  const bank = withBankAsLeft(feeder, plan, asLeft)
  const items = itemsAsLeft(feeder, bank.feeder, plan, asLeft)
  return { feeder: bank.feeder, ...items, notes: [...bank.notes, ...items.notes] }
}

interface BankAsLeft {
  readonly feeder: Feeder
  readonly notes: readonly string[]
}

function withBankAsLeft(feeder: Feeder, plan: JobPlan, asLeft: AsLeft): BankAsLeft {
  if (!plan.bank) return { feeder, notes: [] }
  const { regulator, standing } = plan.bank
  const oldId = (standing ?? regulator).id
  const now = feeder.equipment.find((item) => item.id === oldId)
  if (plan.kind === 'remove a bank' && !now) {
    return { feeder, notes: [`Bank ${oldId} stands in the feeder no more.`] }
  }
  const built = bankToStand(plan.kind, plan.bank, now?.kind === 'regulator' ? now : null, asLeft)
  if (!built) return { feeder, notes: [] }
  const result = checked(feeder, feederWithBank(feeder, built.regulator, [oldId]), built.notes)
  const isTaken = result.feeder !== feeder
  const lost = isTaken ? customersLost(feeder, result.feeder, plan.kind) : []
  return { feeder: result.feeder, notes: [...result.notes, ...lost] }
}

interface ToStand {
  /** Null where the bank goes. */
  readonly regulator: Regulator | null
  readonly notes: readonly string[]
}

/**
 * The bank as it is to be written; null for kinds that leave banks alone.
 *
 * @param now As the feeder has it, null where it has it no more.
 */
function bankToStand(
  kind: JobKind,
  { regulator, standing }: BankWork,
  now: Regulator | null,
  asLeft: AsLeft,
): ToStand | null {
  const { id } = standing ?? regulator
  const anew = now ? [] : [`Bank ${id} stood in the feeder no more; it is added anew.`]
  const add = (notes: readonly string[], { regulator: left, notes: more }: RegulatorAsLeft) => ({
    regulator: left,
    notes: [...notes, ...more],
  })
  switch (kind) {
    case 'set a bank':
      return add(now ? [twiceWords(id)] : [], regulatorAsLeft(regulator, asLeft, 'new'))
    case 'change out a bank':
      return add(anew, regulatorAsLeft(regulator, asLeft, 'new'))
    case 'change settings': {
      const base = { ...(now ?? regulator), ...settingsOf(regulator) }
      const isPast = isBypassed(base) ? [stillBypassedWords(id)] : []
      return add([...anew, ...isPast], regulatorAsLeft(base, asLeft, 'set'))
    }
    case 'return a bank to service': {
      const { state: _state, ...base } = { ...(now ?? regulator), ...settingsOf(regulator) }
      return add(anew, regulatorAsLeft(base, asLeft, 'set'))
    }
    case 'take a bank out of service': {
      const left = regulatorAsLeft(now ?? regulator, asLeft, 'switched')
      return add(anew, { ...left, regulator: { ...left.regulator, state: 'bypassed' } })
    }
    case 'remove a bank':
      return { regulator: null, notes: [] }
    case 'retrofit round':
    case 'inspection':
      return null
  }
}

function twiceWords(id: string): string {
  return `${id} stands in the feeder already; it is replaced by what was left.`
}

function stillBypassedWords(id: string): string {
  return `Bank ${id} is recorded as bypassed by now and stays so; see how it really stands.`
}

/** Once nothing regulates there, who is outside the limits, and who was before. */
function customersLost(before: Feeder, after: Feeder, kind: JobKind): string[] {
  if (kind !== 'remove a bank' && kind !== 'take a bank out of service') return []
  const [was, is] = [feederLimits(before), feederLimits(after)]
  const how = kind === 'remove a bank' ? 'Without the bank' : 'With the bank bypassed'
  return after.header.cases.flatMap(({ id, name }) => {
    const outside = is?.cases.get(id)?.customersOutside
    if (outside === undefined) return [`${how} ${name} could not be solved.`]
    if (outside === 0) return []
    const outsideBefore = was?.cases.get(id)?.customersOutside
    const against =
      outsideBefore === undefined
        ? ''
        : outsideBefore === outside
          ? ', as many as before the work'
          : `, before the work ${outsideBefore}`
    return [`${how} ${customersAre(after, outside)} outside the limits in ${name}${against}.`]
  })
}

/** A notice of the feeder that says no more than the job does. */
const HANGS_BYPASSED = 'bank-bypassed'

/** Keeps the old feeder where the new one has an error, and says what is strange about the bank. */
function checked(before: Feeder, after: Feeder, notes: readonly string[]): BankAsLeft {
  const spans = new Map(after.spans.map(({ id, from }) => [id, from]))
  const misplaced = after.equipment.filter(
    (item) =>
      item.kind === 'regulator' &&
      !before.equipment.includes(item) &&
      spans.get(item.span) !== item.pole,
  )
  const findings = checkFeeder(after)
  const errors = [
    ...misplaced.map(({ id }) => `bank ${id} does not sit at the near end of its span.`),
    ...findings.flatMap(({ severity, what }) => (severity === 'error' ? [what] : [])),
  ]
  if (errors.length > 0) {
    const why = errors.join(' ')
    return { feeder: before, notes: [...notes, `The bank is not taken over: ${why}`] }
  }
  const known = new Set(checkFeeder(before).map(keyOf))
  const strange = findings
    .filter((finding) => !known.has(keyOf(finding)) && finding.code !== HANGS_BYPASSED)
    .map(({ featureId, remedy, what }) => `${featureId ?? 'The feeder'}: ${what} ${remedy}`)
  return { feeder: after, notes: [...notes, ...strange, ...unsolved(after)] }
}

function keyOf({ code, featureId, what }: Finding): string {
  return `${code} ${featureId} ${what}`
}

/** With the positions as left, which is how the feeder is kept. */
function unsolved(feeder: Feeder): string[] {
  return solveFeeder(feeder, { taps: 'fixed' }).flatMap((solution) => {
    if (solution.status !== 'not-converged') return []
    return [`With the taps as left the power flow does not converge in ${solution.caseId}.`]
  })
}

function itemsAsLeft(before: Feeder, after: Feeder, { poles, bank, kind }: JobPlan, left: AsLeft) {
  const known = new Set(poles.map(({ pole }) => pole))
  const tops = topsOf(after, known)
  const topsBefore = topsOf(before, known)
  const done = left.measures.filter(({ isDone, pole }) => isDone && known.has(pole))
  const strange = left.measures.filter(({ pole }) => !known.has(pole))
  const addItems = done.map((measure) =>
    itemOfMeasure(measure, tops.get(measure.pole)?.parts ?? [], left),
  )
  const own = before.protections.filter(({ pole, state }) => known.has(pole) && state !== 'removed')
  const replaced = own.filter((item) =>
    done.some((measure) => isReplaced(item, measure, topsBefore.get(item.pole))),
  )
  const oldBank = bank?.standing ?? bank?.regulator
  const onBank = own.filter(
    (item) => oldBank !== undefined && sitsOnBank(item, oldBank.id, topsBefore.get(item.pole)),
  )
  const gone = kind === 'remove a bank' ? onBank : []
  const endItems = own.filter((item) => replaced.includes(item) || gone.includes(item))
  const doubtful =
    kind === 'change out a bank' ? onBank.filter((item) => !endItems.includes(item)) : []
  return {
    addItems,
    endItems: endItems.map(({ id }) => id),
    notes: [
      ...strange.map(
        ({ pole, measure }) => `${measure} on pole ${pole}: the job has no such pole; not kept.`,
      ),
      ...done.flatMap((measure) => unknownParts(measure, tops.get(measure.pole), poles)),
      ...doubtful.map(
        ({ what, pole }) =>
          `“${what}” on pole ${pole} sat on the old units and is kept as it was; see whether it is on the new ones.`,
      ),
    ],
  }
}

function topsOf(feeder: Feeder, poles: ReadonlySet<string>): Map<string, PoleTop> {
  const sites = poleSites(feeder, []).filter(({ pole }) => poles.has(pole.id))
  return new Map(
    sites.flatMap((site) => {
      const top = poleTopOf(site)
      return top ? [[site.pole.id, top]] : []
    }),
  )
}

/** The same measure, and for covers on a part that both are on. */
function isReplaced(item: Protection, done: MeasureAsLeft, top: PoleTop | undefined): boolean {
  if (item.pole !== done.pole || measureOfItem(item, top) !== done.measure) return false
  if (!isCoverKind(done.measure)) return true
  const parts = partsOfItem(item, top)
  return parts.some((id) => done.partIds.includes(id))
}

/** Parts that the plan names are taken as they are: a person may have changed the drawing since. */
function unknownParts(
  { measure, partIds, pole }: MeasureAsLeft,
  top: PoleTop | undefined,
  poles: JobPlan['poles'],
): string[] {
  if (!isCoverKind(measure)) return []
  if (partIds.length === 0)
    return [`${measure} on pole ${pole} names no part, so it closes nothing.`]
  if (!top) return []
  const planned = poles.flatMap((work) => (work.pole === pole ? work.measures : []))
  const known = new Set([
    ...top.parts.map(({ id }) => id),
    ...planned.flatMap((each) => each.partIds),
  ])
  return partIds
    .filter((id) => !known.has(id))
    .map((id) => `${measure} on pole ${pole}: the drawing has no part ${id}.`)
}
