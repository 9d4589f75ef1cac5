import { z } from 'zod'
import { PhaseName } from '#domain/feeder/phases.ts'
import type { ExpectedCase } from '#domain/jobs/job-plan.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import type { ReadOff } from '../../workers/solver-functions.ts'
import { keptOnDevice } from '../work/kept-on-device.ts'
import { numberOfText } from '../work/number-of-text.ts'

const ReadOffDraft = z.object({
  /** As typed. */
  amps: z.partialRecord(PhaseName, z.string()),
  taps: z.partialRecord(PhaseName, z.number().int()),
})
export type ReadOffDraft = z.infer<typeof ReadOffDraft>

export const EMPTY_READ_OFF: ReadOffDraft = { amps: {}, taps: {} }

/** What was read off at the bank of a job, kept on the device until it is read off anew. */
export const readOffDrafts = keptOnDevice('read-off', ReadOffDraft)

/** More than any line carries; a slip of the finger. */
const MOST_AMPS = 10_000

export type ReadOffState =
  | { readonly kind: 'nothing yet' }
  | { readonly kind: 'faulty'; readonly phase: Phase; readonly fault: string }
  | { readonly kind: 'read'; readonly readOff: ReadOff }

/**
 * What a draft says. A phase whose amps are left empty is not held against the load; a tap that was
 * not chosen is the one of the case.
 */
export function readOffOf(
  draft: ReadOffDraft,
  phases: readonly Phase[],
  { caseId, readings }: ExpectedCase,
): ReadOffState {
  const amps: ReadOff['amps'] = {}
  for (const phase of phases) {
    const text = draft.amps[phase] ?? ''
    if (text.trim() === '') continue
    const value = numberOfText(text)
    if (value === null || value < 0 || value > MOST_AMPS) {
      const fault = `Amps are a number from 0 to ${MOST_AMPS.toLocaleString('en-US')}, as 42 or 42.5.`
      return { kind: 'faulty', phase, fault }
    }
    amps[phase] = value
  }
  if (Object.keys(amps).length === 0) return { kind: 'nothing yet' }
  const taps: ReadOff['taps'] = {}
  for (const phase of phases) {
    taps[phase] = draft.taps[phase] ?? readings.find((one) => one.phase === phase)?.tap ?? 0
  }
  return { kind: 'read', readOff: { caseId, taps, amps } }
}

export function phasesOf(phases: string): Phase[] {
  return PHASES.filter((phase) => phases.includes(phase))
}
