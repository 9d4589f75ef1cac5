import type { AsLeft, MeasureAsLeft, SettingsAsLeft, UnitAsLeft } from '#domain/jobs/as-left.ts'
import { leavesInService } from '#domain/jobs/is-bank-kind.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import { SETTING_FIELDS } from '../../jobs/setting-fields.ts'
import type { Fields } from '../../record/merge-fields.ts'
import type { RecordField } from '../../record/record-fields.ts'
import { MEASURE_FIELDS, UNIT_FIELDS, type UnitField, unitFieldsOf } from './form-fields.ts'

/** A measure of the plan, or one that was carried out beside it. */
export type MeasureRow = Pick<MeasureAsLeft, 'pole' | 'measure' | 'partIds' | 'dimensionM'>

/** What the form of a job holds: which units, whether settings are left, which measures. */
export interface FormShape {
  readonly phases: readonly Phase[]
  /** Asked of each unit. */
  readonly unitFields: readonly UnitField[]
  readonly hasSettings: boolean
  readonly measures: readonly MeasureRow[]
}

/** Units and measures of the plan, and those measures that were said before beside it. */
export function formShape(plan: JobPlan, ...said: readonly (AsLeft | null)[]): FormShape {
  const planned = plan.poles.flatMap(({ pole, measures }) =>
    measures.map(
      ({ kind, partIds, dimensionM }): MeasureRow => ({
        pole,
        measure: kind,
        partIds,
        ...(dimensionM !== undefined && { dimensionM }),
      }),
    ),
  )
  const rows = new Map(planned.map((row) => [measureKey(row), row]))
  for (const row of said.flatMap((asLeft) => asLeft?.measures ?? [])) {
    if (!rows.has(measureKey(row))) rows.set(measureKey(row), row)
  }
  const phases = plan.bank?.regulator.phases ?? ''
  return {
    phases: PHASES.filter((phase) => phases.includes(phase)),
    unitFields: unitFieldsOf(plan.kind, ...said),
    hasSettings: plan.bank !== undefined && leavesInService(plan.kind),
    measures: [...rows.values()],
  }
}

export function measureKey({ pole, measure, partIds }: MeasureRow): string {
  return [pole, measure, ...partIds].join('~')
}

export const unitField = (phase: Phase, key: keyof UnitAsLeft) => `unit.${phase}.${key}`
export const settingField = (key: keyof SettingsAsLeft) => `settings.${key}`
export const measureField = (row: MeasureRow, key: string) => `measure.${measureKey(row)}.${key}`

/** Every field of the form in its order, with its name for people. */
export function formFields(shape: FormShape): RecordField[] {
  const units = shape.phases.flatMap((phase) =>
    shape.unitFields.map(({ key, label, unit }) => ({
      key: unitField(phase, key),
      label: `${phase} phase: ${label}`,
      inWords: inUnit(unit),
    })),
  )
  const settings = SETTING_FIELDS.map(({ key, label, unit }) => ({
    key: settingField(key),
    label: `Setting: ${label}`,
    inWords: inUnit(unit ?? UNIT_OF_SETTING[key]),
  }))
  const measures = shape.measures.flatMap((row) =>
    MEASURE_FIELDS.map(({ key, label }) => ({
      key: measureField(row, key),
      label: `Pole ${row.pole}, ${row.measure}: ${label}`,
    })),
  )
  return [
    { key: 'on', label: 'Day of the work' },
    { key: 'crew', label: 'Crew', inWords: (value) => String(value).replaceAll('\n', ', ') },
    ...units,
    ...(shape.hasSettings ? settings : []),
    ...measures,
    { key: 'remarks', label: 'Remarks' },
    { key: 'signedBy', label: 'Signed by' },
    { key: 'signaturePath', label: 'Drawn signature', inWords: signatureInWords },
  ]
}

/** Where the name of the field says it already, as in “Most steps raise”, forms leave it out. */
const UNIT_OF_SETTING: Partial<Readonly<Record<keyof SettingsAsLeft, string>>> = {
  ptRatio: 'to 1',
  maxRaise: 'steps',
  maxLower: 'steps',
}

/** As it was typed, with its unit. */
function inUnit(unit: string | undefined): (value: unknown) => string {
  return (value) => (unit ? `${String(value).replace('-', '−')} ${unit}` : String(value))
}

/** Two that differ must not read alike, so its strokes and points are told. */
function signatureInWords(value: unknown): string {
  const path = String(value)
  const strokes = path.match(/M/g)?.length ?? 0
  const points = path.match(/[ML]/g)?.length ?? 0
  return `drawn: ${strokes} ${strokes === 1 ? 'stroke' : 'strokes'}, ${points} points`
}

/** As the form shows it; numbers as they are typed. */
export function fieldsOfAsLeft(asLeft: AsLeft): Fields {
  const fields: Record<string, string> = {
    on: asLeft.on,
    crew: asLeft.crew.join('\n'),
    remarks: asLeft.remarks,
    signedBy: asLeft.signedBy,
    signaturePath: asLeft.signaturePath,
  }
  for (const unit of asLeft.units) {
    for (const { key } of UNIT_FIELDS) fields[unitField(unit.phase, key)] = text(unit[key])
  }
  if (asLeft.settings) {
    for (const { key } of SETTING_FIELDS) fields[settingField(key)] = text(asLeft.settings[key])
  }
  for (const measure of asLeft.measures) {
    fields[measureField(measure, 'isDone')] = measure.isDone ? 'done' : 'not done'
    fields[measureField(measure, 'why')] = measure.why ?? ''
    fields[measureField(measure, 'materialClass')] = measure.materialClass ?? ''
  }
  return fields
}

function text(value: string | number | undefined): string {
  return value === undefined ? '' : String(value)
}
