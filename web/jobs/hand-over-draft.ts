import { z } from 'zod'
import type { DraftJobBody, JobOrigin } from '#contract/jobs.ts'
import { isBankKind, setsUnits } from '#domain/jobs/is-bank-kind.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import { M_PER_FT } from '#domain/units/length.ts'
import { keptDrafts } from '../record/kept-drafts.ts'
import type { Units } from '../state/address.ts'
import { HeadFields, headOfFields, NO_HEAD } from './job-head-draft.ts'

/** What is typed until a job is drafted; figures as they are typed, empty where none is. */
export const HandOverDraft = HeadFields.extend({
  loopOhm: z.string(),
  elevation: z.string(),
  /** Null where nothing is said of it. */
  neutralSide: z.enum(['solid', 'switched']).nullable().default(null),
  birdWork: z.enum(['take along', 'leave']).nullable().default(null),
})
export type HandOverDraft = z.infer<typeof HandOverDraft>

/** Drafts by where the job would come from. */
export const handOverDrafts = keptDrafts('crossarm.hand-over-drafts', HandOverDraft)

export function newHandOver(title: string, dueOn: string): HandOverDraft {
  return { ...NO_HEAD, title, dueOn, loopOhm: '', elevation: '', neutralSide: null, birdWork: null }
}

/** What is asked for beside title and date. */
export interface AskedOfHandOver {
  /** Figures of bypass and approach. */
  readonly bank: boolean
  /** Whether the units that are set get a switch at the neutral side. */
  readonly neutralSide: boolean
  /** Whether open pairs are closed on the same visit; a round is nothing but that. */
  readonly birdWork: boolean
}

/** A proposal sets a bank, or changes one out where one stands. */
export function kindOfOrigin(origin: JobOrigin): JobKind {
  switch (origin.kind) {
    case 'proposal':
      return 'set a bank'
    case 'programme':
      return 'retrofit round'
    case 'by hand':
      return origin.jobKind
  }
}

export function askedOfHandOver(kind: JobKind): AskedOfHandOver {
  return {
    bank: isBankKind(kind),
    neutralSide: setsUnits(kind),
    birdWork: kind !== 'retrofit round',
  }
}

export interface HandOverFaults {
  readonly loopOhm: string | null
  readonly elevation: string | null
}

const MOST_OHM = 100
const LEAST_M = -500
const MOST_M = 9000

/** What is wrong with the figures, and what to do. */
export function faultsOfHandOver(draft: HandOverDraft, units: Units): HandOverFaults {
  const ohm = figureOf(draft.loopOhm)
  const heightM = elevationM(draft.elevation, units)
  const isOhm = ohm === undefined || (ohm > 0 && ohm <= MOST_OHM)
  const isHeight = heightM === undefined || (heightM >= LEAST_M && heightM <= MOST_M)
  return {
    loopOhm: isOhm ? null : `Give ohms above 0 and up to ${MOST_OHM}, or leave it empty.`,
    elevation: isHeight ? null : 'Give the height above sea level, or leave it empty.',
  }
}

/** What is asked of the server; what nothing is said of is left to it. */
export function bodyOfHandOver(
  draft: HandOverDraft,
  origin: JobOrigin,
  bank: number,
  units: Units,
): DraftJobBody {
  const loopOhm = figureOf(draft.loopOhm)
  const heightM = elevationM(draft.elevation, units)
  const { neutralSide, birdWork } = draft
  const asked = askedOfHandOver(kindOfOrigin(origin))
  return {
    ...headOfFields(draft),
    origin,
    bank,
    ...(loopOhm !== undefined && { loopOhm }),
    ...(heightM !== undefined && { elevationM: heightM }),
    ...(asked.neutralSide && neutralSide !== null && { neutralSide }),
    ...(asked.birdWork && birdWork !== null && { birdWork }),
  }
}

function elevationM(typed: string, units: Units): number | undefined {
  const figure = figureOf(typed)
  return figure !== undefined && units === 'us' ? figure * M_PER_FT : figure
}

/** NaN for what is no figure, so that it fits no range. */
function figureOf(typed: string): number | undefined {
  return typed.trim() === '' ? undefined : Number(typed.replaceAll(',', ''))
}
