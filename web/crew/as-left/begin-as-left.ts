import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import type { Phase } from '#domain/units/phases.ts'
import { SETTING_FIELDS } from '../../jobs/setting-fields.ts'
import type { Fields } from '../../record/merge-fields.ts'
import { type FormShape, settingField, unitField } from './as-left-fields.ts'
import { nameplateOfRun, readOffRun } from './read-off-run.ts'

/**
 * What the form begins with: the settings of the plan, what was read in the steps, and who signed
 * them. All of it is looked at and can be changed before it is signed.
 */
export function beginAsLeft(
  plan: JobPlan,
  shape: FormShape,
  entries: readonly JobEntry[],
  today: string,
): Fields {
  const fields: Record<string, string> = { on: today, crew: signersOf(entries).join('\n') }
  if (plan.bank && shape.hasSettings) {
    for (const { key } of SETTING_FIELDS) {
      fields[settingField(key)] = String(asShown(plan.bank.regulator[key]))
    }
  }
  for (const phase of shape.phases) Object.assign(fields, unitFields(plan, entries, phase))
  return fields
}

/** A computed ratio has more decimals than a control shows. */
const asShown = (value: number): number => Number(value.toFixed(3))

function unitFields(plan: JobPlan, entries: readonly JobEntry[], phase: Phase): Fields {
  const { first, last } = readOffRun(plan, entries, phase)
  const { serialNumber, ratingKva } = nameplateOfRun(plan, entries, phase)
  const read: readonly (readonly [string, number | string | undefined])[] = [
    [unitField(phase, 'serialNumber'), serialNumber],
    [unitField(phase, 'ratingKva'), ratingKva],
    [unitField(phase, 'tapFound'), first.tap],
    [unitField(phase, 'tapLeft'), last.tap],
    [unitField(phase, 'counterFound'), first.counter],
    [unitField(phase, 'counterLeft'), last.counter],
    [unitField(phase, 'sourceVBefore'), first.sourceV],
    [unitField(phase, 'loadVBefore'), first.loadV],
    [unitField(phase, 'sourceVAfter'), last.sourceV],
    [unitField(phase, 'loadVAfter'), last.loadV],
    [unitField(phase, 'ampsAfter'), last.amps],
  ]
  return Object.fromEntries(
    read.flatMap(([key, value]) => (value === undefined ? [] : [[key, String(value)]])),
  )
}

function signersOf(entries: readonly JobEntry[]): string[] {
  const names = entries.flatMap((entry) =>
    entry.kind === 'step done' || entry.kind === 'step left out' ? entry.signedBy : [],
  )
  return [...new Set(names)]
}
