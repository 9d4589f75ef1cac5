import { lineToNeutralV } from '#domain/units/voltage-base.ts'
import type { PoleTop } from '../avian/pole-top/pole-top.ts'
import { poleTopOf } from '../avian/pole-top/pole-top-of.ts'
import type { Feeder } from '../feeder/feeder.ts'
import { nominalBefore, nominalVolts } from '../network/nominal-volts.ts'
import { type FeederTrace, traceFeeder } from '../network/trace-feeder.ts'
import type { DraftScene } from './draft-scene.ts'
import { type ExpectedInCases, expectedInCases, foundInCases } from './expected-readings.ts'
import { hazardsOf } from './hazards.ts'
import { isBankKind, leavesInService } from './is-bank-kind.ts'
import type { JobKind } from './job-kind.ts'
import type { BankWork, ExpectedCase, JobPlan, MistakeSign } from './job-plan.ts'
import { kitList } from './kit-list.ts'
import { mistakeSigns } from './mistake-signs.ts'
import type { PlanInput } from './plan-input.ts'
import { planNotes } from './plan-notes.ts'
import { polesOfJob, poleWork, type Sites } from './pole-work.ts'
import { otherUnits } from './same-units.ts'
import { settingsSheet } from './settings-sheet.ts'
import { isBypassedDuring, type WhileBypassed, whileBypassed } from './while-bypassed.ts'

export type { PlanInput } from './plan-input.ts'

/**
 * All that a crew is handed, worked out from what is recorded now. What could not be found out is
 * among the notes.
 *
 * @throws For a pole that the feeder does not have, a kind without its bank, a bank that does not
 * take the place of the standing one unit for unit, or no order of steps.
 */
export function draftPlan(input: PlanInput): JobPlan {
  const { feeder, kind } = input
  const trace = traceFeeder(feeder)
  const bank = bankWork(input, trace)
  const sites = polesOfJob(input, bank)
  const works = polesOf(input, bank).map((pole) => poleWork(input, bank, sites, pole))
  const found: ExpectedInCases = bank ? expectedInCases(feeder, bank) : { cases: [], notes: [] }
  const before = bank ? foundInCases(feeder, bank, found.cases) : null
  const past: WhileBypassed =
    bank && isBypassedDuring(kind, bank)
      ? whileBypassed(feeder, trace, bank)
      : { cases: [], notes: [] }
  const scene: DraftScene = {
    feeder,
    trace,
    kind,
    bank,
    works,
    sites: sites.after,
    tops: topsOf(
      sites.after,
      works.map(({ pole }) => pole),
    ),
    peakA: highestAmps(found.cases),
    birdSettings: input.birdSettings,
    on: input.on,
    dueOn: input.dueOn,
    whileBypassed: past.cases,
  }
  return {
    kind,
    poles: works,
    ...(bank && { bank }),
    kit: kitList(scene),
    hazards: hazardsOf(scene),
    settings: bank && leavesInService(kind) ? settingsSheet(bank) : [],
    expected: found.cases,
    ...(before && { expectedFound: before }),
    ...(past.cases.length > 0 && { whileBypassed: past.cases }),
    mistakes: bank ? mistakesOf(feeder, bank, kind) : [],
    notes: [...found.notes, ...past.notes, ...planNotes(scene, found.cases)],
  }
}

function bankWork({ bank, feeder, kind }: PlanInput, trace: FeederTrace): BankWork | undefined {
  if (!bank) {
    if (isBankKind(kind)) throw new Error(`Expected a bank to "${kind}", got none.`)
    return undefined
  }
  const { elevationM, loopOhm, regulator, standing } = bank
  const why = otherUnits(bank)
  if (why !== null) throw new Error(why)
  return {
    regulator,
    ...(standing && { standing }),
    neutralV: neutralAt(feeder, trace, regulator.span),
    loopOhm,
    ...(elevationM !== undefined && { elevationM }),
  }
}

/** Where the bank sits: before a transformer on the same span, and so on its high side. */
function neutralAt(feeder: Feeder, trace: FeederTrace, spanId: string): number {
  const traced = trace.spans.find(({ span }) => span.id === spanId)
  if (!traced) return lineToNeutralV(feeder.header.nominalKv)
  return nominalBefore(feeder, nominalVolts(feeder, trace), traced.parent)
}

/**
 * Those asked for, the pole of the bank first and with its bird work: one pole, one visit. Where only
 * settings change nobody goes up.
 */
function polesOf(
  { feeder, kind, poles }: PlanInput,
  bank: BankWork | undefined,
): PlanInput['poles'] {
  const known = new Set(feeder.poles.map(({ id }) => id))
  const bankPole = bank?.regulator.pole
  const isMissing = bankPole !== undefined && !poles.some(({ pole }) => pole === bankPole)
  const all = isMissing
    ? [
        { pole: bankPole, measures: kind === 'change settings' ? [] : ('cheapest' as const) },
        ...poles,
      ]
    : poles.toSorted((a, b) => Number(b.pole === bankPole) - Number(a.pole === bankPole))
  const strange = all.find(({ pole }) => !known.has(pole))
  if (strange) throw new Error(`Feeder "${feeder.header.id}" has no pole "${strange.pole}".`)
  return all
}

function topsOf(sites: Sites, poles: readonly string[]): Map<string, PoleTop> {
  return new Map(
    poles.flatMap((pole) => {
      const site = sites.get(pole)
      const top = site && poleTopOf(site)
      return top ? [[pole, top]] : []
    }),
  )
}

function highestAmps(cases: readonly ExpectedCase[]): number | null {
  const amps = cases.flatMap(({ readings }) => readings.map((reading) => reading.amps))
  return amps.length > 0 ? Math.max(...amps) : null
}

/** What can be wrong depends on what is handled: nothing where a bank only goes. */
function mistakesOf(feeder: Feeder, bank: BankWork, kind: JobKind): MistakeSign[] {
  switch (kind) {
    case 'set a bank':
    case 'change out a bank':
      return mistakeSigns(feeder, bank)
    case 'return a bank to service':
    case 'change settings':
      return mistakeSigns(feeder, bank).filter(({ mistake }) => mistake === 'wrong potential ratio')
    case 'remove a bank':
    case 'take a bank out of service':
    case 'retrofit round':
    case 'inspection':
      return []
  }
}
