import type { Phase } from '#domain/units/phases.ts'
import type { Fields } from '../../record/merge-fields.ts'
import { type FormShape, unitField } from './as-left-fields.ts'
import type { Faults } from './check-as-left.ts'

export interface UnitCount {
  readonly filled: number
  readonly all: number
  /** Something in it stops the form from being entered. */
  readonly hasFault: boolean
}

/** How much of one unit is filled in. */
export function countUnit(
  { unitFields }: FormShape,
  phase: Phase,
  fields: Fields,
  faults: Faults,
): UnitCount {
  const names = unitFields.map(({ key }) => unitField(phase, key))
  return {
    filled: names.filter((name) => (fields[name] ?? '').trim() !== '').length,
    all: names.length,
    hasFault: names.some((name) => faults[name] !== undefined),
  }
}

/** "✓ A phase: complete", "B phase: 9 of 13", with a sign of a fault. */
export function unitInWords(phase: Phase, { filled, all, hasFault }: UnitCount): string {
  if (hasFault) return `✕ ${phase} phase: to mend`
  return filled === all ? `✓ ${phase} phase: complete` : `${phase} phase: ${filled} of ${all}`
}

/** The unit that a field of the form belongs to; null for all others. */
export function phaseOfField({ phases }: FormShape, name: string): Phase | null {
  return phases.find((phase) => name.startsWith(`unit.${phase}.`)) ?? null
}
