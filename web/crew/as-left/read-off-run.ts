import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import type { Asked, Step } from '#domain/jobs/step-sequence.ts'
import type { Phase } from '#domain/units/phases.ts'

export interface UnitReadings {
  readonly tap?: number
  readonly counter?: number
  readonly sourceV?: number
  readonly loadV?: number
  readonly amps?: number
}

/** What was read off the nameplate of the unit that is set. */
export interface NameplateRead {
  readonly serialNumber?: string
  readonly ratingKva?: number
}

type Read = keyof UnitReadings

/**
 * What the steps say of one unit before and after the work: what was read ahead of the first step
 * that changes the unit or its switches, and what was read last behind it. Where no step changes
 * anything, the first and the last reading.
 */
export function readOffRun(
  plan: JobPlan,
  entries: readonly JobEntry[],
  phase: Phase,
): { readonly first: UnitReadings; readonly last: UnitReadings } {
  const first: Partial<Record<Read, number>> = {}
  const last: Partial<Record<Read, number>> = {}
  for (const entry of entries) {
    if (entry.kind !== 'step done' || entry.phase !== phase) continue
    const steps = plan.poles.find(({ pole }) => pole === entry.pole)?.sequence.steps ?? []
    const at = steps.findIndex(({ id }) => id === entry.stepId)
    const changesAt = steps.findIndex(({ action }) => action !== undefined)
    const readings = readingsOf(steps[at], entry.values)
    if (changesAt < 0 || at < changesAt) Object.assign(first, { ...readings, ...first })
    if (changesAt < 0 || at > changesAt) Object.assign(last, readings)
  }
  return { first, last }
}

function readingsOf(step: Step | undefined, values: Readonly<Record<string, unknown>>) {
  return Object.fromEntries(
    (step?.asks ?? []).flatMap((asked) => {
      const what = whatIsRead(asked)
      const value = values[asked.id]
      return what !== null && typeof value === 'number' ? [[what, value]] : []
    }),
  ) as UnitReadings
}

/** By its rule where it has one; other taps, and counters, go by their words. */
function whatIsRead(asked: Asked): Read | null {
  if (asked.kind !== 'number') return null
  switch (asked.judge) {
    case 'source volts as expected':
      return asked.unit === 'V on 120' ? 'sourceV' : null
    case 'load volts as expected':
      return asked.unit === 'V on 120' ? 'loadV' : null
    case 'current as expected':
      return asked.unit === 'A' ? 'amps' : null
    case 'position indicator at neutral':
      return 'tap'
    case undefined:
      if (/\btap position\b/i.test(asked.what)) return 'tap'
      return /\bcounter\b/i.test(asked.what) ? 'counter' : null
    default:
      return null
  }
}

/** The last nameplate that was read at a step; that of an old unit, which goes away, is not meant. */
export function nameplateOfRun(
  plan: JobPlan,
  entries: readonly JobEntry[],
  phase: Phase,
): NameplateRead {
  const read: { serialNumber?: string; ratingKva?: number } = {}
  for (const entry of entries) {
    if (entry.kind !== 'step done' || entry.phase !== phase) continue
    const steps = plan.poles.find(({ pole }) => pole === entry.pole)?.sequence.steps ?? []
    for (const asked of steps.find(({ id }) => id === entry.stepId)?.asks ?? []) {
      const value = entry.values[asked.id]
      if (/\bold unit\b/i.test(asked.what)) continue
      if (typeof value === 'string' && /\bserial number\b/i.test(asked.what)) {
        read.serialNumber = value
      }
      if (typeof value === 'number' && asked.kind === 'number' && asked.unit === 'kVA') {
        read.ratingKva = value
      }
    }
  }
  return read
}
