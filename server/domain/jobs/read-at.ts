import type { Phase } from '#domain/units/phases.ts'
import type { ReadValue } from './job-entry.ts'
import type { JobPlan } from './job-plan.ts'
import type { Asked, Step } from './step-sequence.ts'
import type { UnitState } from './unit-state.ts'
import type { Judged } from './verdict.ts'

/** The units that a step is about, and how they stand while it is done. */
export interface ReadAt {
  readonly plan: JobPlan
  readonly phases: readonly Phase[]
  readonly states: readonly UnitState[]
  /** Serial numbers that were read at the pole so far. */
  readonly serials: readonly SerialRead[]
}

export interface SerialRead {
  readonly stepId: string
  readonly phase: Phase | undefined
  readonly serial: string
}

/** What is entered for a step, by the ids of what it asks for. */
export type Values = Readonly<Record<string, ReadValue>>

/** A rule of the trade for one reading. */
export type JudgeOf = (
  value: ReadValue,
  asked: Asked,
  at: ReadAt,
  step: Step,
  values: Values,
) => Judged

/** A blank field says nothing. */
export function isGiven(value: ReadValue | undefined): value is ReadValue {
  return value !== undefined && (typeof value !== 'string' || value.trim() !== '')
}

export const unitOf = (asked: Asked): string => (asked.kind === 'number' ? asked.unit : '')

/** Volts of a reading that may be in kilovolts. */
export function voltsOf(read: number, asked: Asked): number {
  return unitOf(asked).toLowerCase() === 'kv' ? read * 1000 : read
}

export function inUnit(value: number, unit: string): string {
  return `${Number(value.toFixed(Math.abs(value) < 1000 ? 1 : 0))} ${unit}`.trim()
}
