import { z } from 'zod'
import type { JobOrigin } from '#contract/jobs.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import type { Pole } from '#domain/feeder/pole.ts'
import { isBankKind, leavesInService } from '#domain/jobs/is-bank-kind.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import { keptDrafts } from '../record/kept-drafts.ts'
import { banksFor, whyNoBank } from './banks-for.ts'
import { polesMeant } from './poles-meant.ts'
import { readWantedSettings } from './wanted-settings.ts'

/** A new bank comes from a kept proposal, which says its size and settings. */
export const BY_HAND_KINDS = [
  'inspection',
  'retrofit round',
  'change settings',
  'take a bank out of service',
  'return a bank to service',
  'change out a bank',
  'remove a bank',
] as const satisfies readonly JobKind[]
export type ByHandKind = (typeof BY_HAND_KINDS)[number]

export const ByHandDraft = z.object({
  kind: z.enum(BY_HAND_KINDS),
  /** Ids or scraps of them as they are typed, with commas or spaces between. */
  poles: z.string(),
  /** Of the bank last chosen; the first that is offered where it is none of those. */
  regulatorId: z.string(),
  /** As typed, by setting; blank for what stays as it is. */
  settings: z.record(z.string(), z.string()).default({}),
})
export type ByHandDraft = z.infer<typeof ByHandDraft>

/** Drafts by feeder. */
export const byHandDrafts = keptDrafts('crossarm.by-hand-drafts', ByHandDraft)

/** The bank that the work is on; undefined for work on none, and where none stands so. */
export function bankOfDraft(
  { kind, regulatorId }: ByHandDraft,
  regulators: readonly Regulator[],
): Regulator | undefined {
  if (!isBankKind(kind)) return undefined
  const offered = banksFor(kind, regulators)
  return offered.find(({ id }) => id === regulatorId) ?? offered[0]
}

export type ByHandOrigin =
  | { readonly ok: true; readonly origin: JobOrigin; readonly poles: readonly string[] }
  | { readonly ok: false; readonly why: string }

/** What the job would come from, or what is still wrong with it. */
export function originByHand(
  draft: ByHandDraft,
  poleById: ReadonlyMap<string, Pole>,
  regulators: readonly Regulator[],
): ByHandOrigin {
  return isBankKind(draft.kind) ? originOnBank(draft, regulators) : originAtPoles(draft, poleById)
}

function originOnBank(draft: ByHandDraft, regulators: readonly Regulator[]): ByHandOrigin {
  const { kind } = draft
  const bank = bankOfDraft(draft, regulators)
  if (!bank) return { ok: false, why: whyNoBank(kind, regulators) }
  const poles = [bank.pole]
  const origin = { kind: 'by hand', jobKind: kind, poles, regulatorId: bank.id } as const
  if (!leavesInService(kind)) return { ok: true, poles, origin }
  const { settings, faults } = readWantedSettings(draft.settings)
  const [fault] = Object.values(faults)
  if (fault !== undefined) return { ok: false, why: fault }
  const hasNone = Object.keys(settings).length === 0
  if (hasNone && kind === 'change settings') {
    return { ok: false, why: 'Say which setting is to change, and to what.' }
  }
  return { ok: true, poles, origin: hasNone ? origin : { ...origin, settings } }
}

const MOST_POLES = 60

function originAtPoles(
  { kind, poles: typed }: ByHandDraft,
  poleById: ReadonlyMap<string, Pole>,
): ByHandOrigin {
  const scraps = typed.split(/[\s,;]+/).filter((scrap) => scrap !== '')
  if (scraps.length === 0) return { ok: false, why: 'Name at least one pole.' }
  const meant = polesMeant(poleById, scraps)
  if (!meant.ok) return meant
  const { poles } = meant
  if (poles.length > MOST_POLES) {
    return { ok: false, why: `One job holds at most ${MOST_POLES} poles; make two of it.` }
  }
  return { ok: true, poles, origin: { kind: 'by hand', jobKind: kind, poles: [...poles] } }
}
