import type { BirdSettings } from '../avian/bird-settings.ts'
import { cheapestSet } from '../avian/measures/cheapest-measures.ts'
import type { MeasureUse } from '../avian/measures/measure.ts'
import { poleSites } from '../avian/pole-top/pole-sites.ts'
import type { PoleSite } from '../avian/pole-top/pole-top.ts'
import type { PoleTopChoice } from '../avian/pole-top/pole-top-choice.ts'
import { poleTopOf } from '../avian/pole-top/pole-top-of.ts'
import type { Protection } from '../feeder/birds.ts'
import type { Regulator } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import { isBypassed } from '../feeder/is-bypassed.ts'
import type { BankAtStart } from './bank-at-start.ts'
import { feederWithBank } from './feeder-with-bank.ts'
import { handlesUnits, isBankKind } from './is-bank-kind.ts'
import { sitsOnBank } from './items-on-bank.ts'
import type { JobKind } from './job-kind.ts'
import type { BankWork, PoleWork } from './job-plan.ts'
import { openPairs } from './open-pairs.ts'
import type { ChosenMeasure, PlanInput } from './plan-input.ts'
import { sequenceFor } from './sequence-for.ts'
import { sequenceForBank } from './sequence-for-bank.ts'

/** What a pole carries, by its id. */
export type Sites = ReadonlyMap<string, PoleSite>

export interface PolesOfJob {
  /** As they stand now, and with a bank that is set where none stands. */
  readonly before: Sites
  /** As they will stand: without a bank that goes. */
  readonly after: Sites
}

export function polesOfJob(
  { feeder, kind, poleTops }: PlanInput,
  bank: BankWork | undefined,
): PolesOfJob {
  const now = siteMap(feeder, poleTops)
  if (!bank) return { before: now, after: now }
  const gone = [bank.regulator.id, ...(bank.standing ? [bank.standing.id] : [])]
  const set = kind === 'remove a bank' ? null : bank.regulator
  const after = siteMap(feederWithBank(feeder, set, gone), poleTops)
  return { before: kind === 'set a bank' ? after : now, after }
}

function siteMap(feeder: Feeder, poleTops: readonly PoleTopChoice[]): Sites {
  return new Map(poleSites(feeder, poleTops).map((site) => [site.pole.id, site]))
}

/** Covers on units that are changed out come down with them, and are needed again. */
export function poleWork(
  input: PlanInput,
  bank: BankWork | undefined,
  { before, after }: PolesOfJob,
  { measures, pole }: PlanInput['poles'][number],
): PoleWork {
  const { birdSettings, feeder, kind, sequences } = input
  const [now, then] = [before.get(pole), after.get(pole)]
  const items = feeder.protections.filter((item) => item.pole === pole)
  const top = now && (poleTopOf(now) ?? undefined)
  const isChanged = bank?.regulator.pole === pole && handlesUnits(kind)
  const oldId = (bank?.standing ?? bank?.regulator)?.id ?? ''
  const kept = isChanged ? items.filter((item) => !sitsOnBank(item, oldId, top)) : items
  const chosen =
    measures === 'cheapest' ? cheapest(kind, then, kept, birdSettings) : measures.map(copyOf)
  const own = bank?.regulator.pole === pole ? bank : undefined
  const kindHere = isBankKind(kind) && !own ? 'retrofit round' : kind
  const found = sequenceFor(kindHere, sequences, chosen, standingAtStart(own?.standing))
  if (!found) throw new Error(`No order of steps is given for "${kindHere}".`)
  return {
    pole,
    measures: chosen,
    openPairs: (now && openPairs(now, items, [], birdSettings)) ?? 0,
    openPairsAfter: (then && openPairs(then, kept, chosen, birdSettings)) ?? 0,
    sequence: sequenceForBank(found.sequence, own?.regulator, own?.standing),
    sequenceVersion: found.version,
  }
}

/** How a bank that stands is found; undefined where none does. */
export function standingAtStart(standing: Regulator | undefined): BankAtStart | undefined {
  if (!standing) return undefined
  return isBypassed(standing) ? 'bypassed' : 'in service'
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
