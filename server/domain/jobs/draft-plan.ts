import { lineToNeutralV } from '#domain/units/voltage-base.ts'
import type { BirdSettings } from '../avian/bird-settings.ts'
import { cheapestSet } from '../avian/measures/cheapest-measures.ts'
import type { MeasureUse } from '../avian/measures/measure.ts'
import { poleSites } from '../avian/pole-top/pole-sites.ts'
import type { PoleSite, PoleTop } from '../avian/pole-top/pole-top.ts'
import type { PoleTopChoice } from '../avian/pole-top/pole-top-choice.ts'
import { poleTopOf } from '../avian/pole-top/pole-top-of.ts'
import type { Protection } from '../feeder/birds.ts'
import type { Regulator } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import { nominalBefore, nominalVolts } from '../network/nominal-volts.ts'
import { type FeederTrace, traceFeeder } from '../network/trace-feeder.ts'
import type { DraftScene } from './draft-scene.ts'
import { type ExpectedInCases, expectedInCases } from './expected-readings.ts'
import { feederWithBank } from './feeder-with-bank.ts'
import { hazardsOf } from './hazards.ts'
import { sitsOnBank } from './items-on-bank.ts'
import type { JobKind } from './job-kind.ts'
import type { BankWork, ExpectedCase, JobPlan, MistakeSign, PoleWork } from './job-plan.ts'
import { kitList } from './kit-list.ts'
import { mistakeSigns } from './mistake-signs.ts'
import { openPairs } from './open-pairs.ts'
import { planNotes } from './plan-notes.ts'
import { sequenceFor } from './sequence-for.ts'
import { settingsSheet } from './settings-sheet.ts'
import type { StepSequence } from './step-sequence.ts'

export type ChosenMeasure = PoleWork['measures'][number]

export interface PlanInput {
  /** As recorded now, with the items, nests and finds of the record. */
  readonly feeder: Feeder
  readonly kind: JobKind
  readonly poles: readonly {
    readonly pole: string
    readonly measures: readonly ChosenMeasure[] | 'cheapest'
  }[]
  readonly bank?: {
    readonly regulator: Regulator
    /** The bank that stands there now. */
    readonly standing?: Regulator
    readonly loopOhm: number
    readonly elevationM?: number
  }
  readonly sequences: readonly { readonly sequence: StepSequence; readonly version: number }[]
  readonly poleTops: readonly PoleTopChoice[]
  readonly birdSettings?: BirdSettings
  /** Day for which seasons and looks that are due are told, as "2027-02-15". */
  readonly on: string
}

/**
 * All that a crew is handed, worked out from what is recorded now. What could not be found out is
 * among the notes.
 *
 * @throws For a pole that the feeder does not have, a kind without its bank, or no order of steps.
 */
export function draftPlan(input: PlanInput): JobPlan {
  const { feeder, kind } = input
  const trace = traceFeeder(feeder)
  const bank = bankWork(input, trace)
  const sites = polesOfJob(input, bank)
  const works = polesOf(input, bank).map((pole) => poleWork(input, bank, sites, pole))
  const found: ExpectedInCases = bank ? expectedInCases(feeder, bank) : { cases: [], notes: [] }
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
  }
  return {
    kind,
    poles: works,
    ...(bank && { bank }),
    kit: kitList(scene),
    hazards: hazardsOf(scene),
    settings: bank && kind !== 'remove a bank' ? settingsSheet(bank) : [],
    expected: found.cases,
    mistakes: bank ? mistakesOf(feeder, bank, kind) : [],
    notes: [...found.notes, ...planNotes(scene, found.cases)],
  }
}

const NEEDS_BANK: readonly JobKind[] = [
  'set a bank',
  'change out a bank',
  'remove a bank',
  'change settings',
]

function bankWork({ bank, feeder, kind }: PlanInput, trace: FeederTrace): BankWork | undefined {
  if (!bank) {
    if (isBankKind(kind)) throw new Error(`Expected a bank to "${kind}", got none.`)
    return undefined
  }
  const { elevationM, loopOhm, regulator, standing } = bank
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

/** Those asked for, the pole of the bank among them: one pole, one visit. */
function polesOf({ feeder, poles }: PlanInput, bank: BankWork | undefined): PlanInput['poles'] {
  const known = new Set(feeder.poles.map(({ id }) => id))
  const bankPole = bank?.regulator.pole
  const isMissing = bankPole !== undefined && !poles.some(({ pole }) => pole === bankPole)
  const all = isMissing
    ? [{ pole: bankPole, measures: 'cheapest' as const }, ...poles]
    : poles.toSorted((a, b) => Number(b.pole === bankPole) - Number(a.pole === bankPole))
  const strange = all.find(({ pole }) => !known.has(pole))
  if (strange) throw new Error(`Feeder "${feeder.header.id}" has no pole "${strange.pole}".`)
  return all
}

/** What a pole carries, by its id. */
type Sites = ReadonlyMap<string, PoleSite>

interface PolesOfJob {
  /** With all that stands and all that is set. */
  readonly before: Sites
  /** As they will stand: without a bank that goes. */
  readonly after: Sites
}

function polesOfJob(input: PlanInput, bank: BankWork | undefined): PolesOfJob {
  const { feeder, kind, poleTops } = input
  const sitesWith = (regulator: Regulator | null): Sites => {
    if (!bank) return siteMap(feeder, poleTops)
    const gone = [bank.regulator.id, ...(bank.standing ? [bank.standing.id] : [])]
    return siteMap(feederWithBank(feeder, regulator, gone), poleTops)
  }
  const after = sitesWith(bank && kind !== 'remove a bank' ? bank.regulator : null)
  const before = kind === 'remove a bank' ? siteMap(feeder, poleTops) : after
  return { before, after }
}

function siteMap(feeder: Feeder, poleTops: readonly PoleTopChoice[]): Sites {
  return new Map(poleSites(feeder, poleTops).map((site) => [site.pole.id, site]))
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

/** Covers on units that are changed out come down with them, and are needed again. */
function poleWork(
  input: PlanInput,
  bank: BankWork | undefined,
  { before, after }: PolesOfJob,
  { measures, pole }: PlanInput['poles'][number],
): PoleWork {
  const { birdSettings, feeder, kind, sequences } = input
  const [now, then] = [before.get(pole), after.get(pole)]
  const items = feeder.protections.filter((item) => item.pole === pole)
  const top = now && (poleTopOf(now) ?? undefined)
  const isChanged = bank?.regulator.pole === pole && kind !== 'change settings'
  const oldId = (bank?.standing ?? bank?.regulator)?.id ?? ''
  const kept = isChanged ? items.filter((item) => !sitsOnBank(item, oldId, top)) : items
  const chosen =
    measures === 'cheapest' ? cheapest(kind, then, kept, birdSettings) : measures.map(copyOf)
  const kindHere = isBankKind(kind) && bank?.regulator.pole !== pole ? 'retrofit round' : kind
  const found = sequenceFor(kindHere, sequences, chosen)
  if (!found) throw new Error(`No order of steps is given for "${kindHere}".`)
  return {
    pole,
    measures: chosen,
    openPairs: (now && openPairs(now, items, [], birdSettings)) ?? 0,
    openPairsAfter: (then && openPairs(then, kept, chosen, birdSettings)) ?? 0,
    sequence: found.sequence,
    sequenceVersion: found.version,
  }
}

/** An inspection looks and puts nothing up. */
function cheapest(
  kind: JobKind,
  site: PoleSite | undefined,
  items: readonly Protection[],
  settings: BirdSettings | undefined,
): ChosenMeasure[] {
  if (!site || kind === 'inspection') return []
  return (cheapestSet(site, items, settings)?.uses ?? []).map(copyOf)
}

function copyOf({ dimensionM, kind, partIds }: MeasureUse): ChosenMeasure {
  return { kind, partIds: [...partIds], ...(dimensionM !== undefined && { dimensionM }) }
}

function isBankKind(kind: JobKind): boolean {
  return NEEDS_BANK.includes(kind)
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
    case 'change settings':
      return mistakeSigns(feeder, bank).filter(({ mistake }) => mistake === 'wrong potential ratio')
    case 'remove a bank':
    case 'retrofit round':
    case 'inspection':
      return []
  }
}
