import type { AsLeft, UnitAsLeft } from '#domain/jobs/as-left.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'

export interface UnitField {
  readonly key: Exclude<keyof UnitAsLeft, 'phase'>
  readonly label: string
  readonly unit?: string
  readonly kind: 'text' | 'number' | 'tap'
}

/** Volts are those of the control, on the 120 V base, as the steps ask for them. */
export const UNIT_FIELDS: readonly UnitField[] = [
  { key: 'serialNumber', label: 'Serial number', kind: 'text' },
  { key: 'nameplate', label: 'Nameplate, in its own words', kind: 'text' },
  { key: 'ratingKva', label: 'Rating', unit: 'kVA', kind: 'number' },
  { key: 'ratingA', label: 'Rated current', unit: 'A', kind: 'number' },
  { key: 'tapFound', label: 'Tap found', unit: 'steps', kind: 'tap' },
  { key: 'tapLeft', label: 'Tap left', unit: 'steps', kind: 'tap' },
  { key: 'counterFound', label: 'Counter found', unit: 'operations', kind: 'number' },
  { key: 'counterLeft', label: 'Counter left', unit: 'operations', kind: 'number' },
  { key: 'sourceVBefore', label: 'Source volts before', unit: 'V on 120', kind: 'number' },
  { key: 'loadVBefore', label: 'Load volts before', unit: 'V on 120', kind: 'number' },
  { key: 'sourceVAfter', label: 'Source volts after', unit: 'V on 120', kind: 'number' },
  { key: 'loadVAfter', label: 'Load volts after', unit: 'V on 120', kind: 'number' },
  { key: 'ampsAfter', label: 'Current after', unit: 'A', kind: 'number' },
]

/** Where the units stay, nobody reads nameplates; under a bypass, nothing flows through them at the end. */
const ONLY: Partial<Readonly<Record<JobKind, readonly UnitField['key'][]>>> = {
  'take a bank out of service': [
    'serialNumber',
    'tapFound',
    'tapLeft',
    'counterFound',
    'counterLeft',
    'sourceVBefore',
    'loadVBefore',
  ],
  'return a bank to service': [
    'serialNumber',
    'tapFound',
    'tapLeft',
    'counterFound',
    'counterLeft',
    'sourceVAfter',
    'loadVAfter',
    'ampsAfter',
  ],
}

/** What is asked of each unit after this kind of work, and what was said of one beside it. */
export function unitFieldsOf(kind: JobKind, ...said: readonly (AsLeft | null)[]): UnitField[] {
  const only = ONLY[kind]
  const isSaid = (key: UnitField['key']) =>
    said.some((asLeft) => asLeft?.units.some((unit) => (unit[key] ?? '') !== ''))
  return UNIT_FIELDS.filter(({ key }) => !only || only.includes(key) || isSaid(key))
}

export const MEASURE_FIELDS = [
  { key: 'isDone', label: 'done or not' },
  { key: 'why', label: 'why' },
  { key: 'materialClass', label: 'material' },
] as const
