import { z } from 'zod'
import type { DraftJobBody, JobOrigin } from '#contract/jobs.ts'
import { M_PER_FT } from '#domain/units/length.ts'
import { keptDrafts } from '../record/kept-drafts.ts'
import type { Units } from '../state/address.ts'
import { HeadFields, headOfFields, NO_HEAD } from './job-head-draft.ts'

/** What is typed until a job is drafted; figures as they are typed, empty where none is. */
export const HandOverDraft = HeadFields.extend({ loopOhm: z.string(), elevation: z.string() })
export type HandOverDraft = z.infer<typeof HandOverDraft>

/** Drafts by where the job would come from. */
export const handOverDrafts = keptDrafts('crossarm.hand-over-drafts', HandOverDraft)

export function newHandOver(title: string, dueOn: string): HandOverDraft {
  return { ...NO_HEAD, title, dueOn, loopOhm: '', elevation: '' }
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

/** What is asked of the server; figures that are empty are left to it. */
export function bodyOfHandOver(
  draft: HandOverDraft,
  origin: JobOrigin,
  bank: number,
  units: Units,
): DraftJobBody {
  const loopOhm = figureOf(draft.loopOhm)
  const heightM = elevationM(draft.elevation, units)
  return {
    ...headOfFields(draft),
    origin,
    bank,
    ...(loopOhm !== undefined && { loopOhm }),
    ...(heightM !== undefined && { elevationM: heightM }),
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
