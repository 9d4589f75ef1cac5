import { counted, listed } from '../state/format.ts'
import type { RecordField } from './record-fields.ts'

/** What people say of a job beside its plan, and can change. */
export const JOB_FIELDS: readonly RecordField[] = [
  { key: 'title', label: 'Title' },
  { key: 'dueOn', label: 'Due on' },
  { key: 'crew', label: 'Crew' },
  { key: 'note', label: 'Note' },
]

/** A job as its history tells it. */
export const JOB_HISTORY_FIELDS: readonly RecordField[] = [
  ...JOB_FIELDS,
  { key: 'state', label: 'State' },
  { key: 'reason', label: 'Reason' },
  {
    key: 'feederVersionAfter',
    label: 'Version of the feeder that it wrote',
  },
]

/** What was left at the poles. */
export const AS_LEFT_FIELDS: readonly RecordField[] = [
  { key: 'on', label: 'Day of the work' },
  { key: 'crew', label: 'Crew', inWords: namesInWords },
  { key: 'units', label: 'Units', inWords: unitsInWords },
  { key: 'settings', label: 'Settings', inWords: settingsInWords },
  { key: 'measures', label: 'Measures for birds', inWords: measuresInWords },
  { key: 'remarks', label: 'Remarks' },
  { key: 'signedBy', label: 'Signed by' },
]

/** An order of steps, but its steps; `step-in-words.ts` tells those. */
export const SEQUENCE_FIELDS: readonly RecordField[] = [
  { key: 'name', label: 'Name' },
  { key: 'forKinds', label: 'For', inWords: namesInWords },
  { key: 'bankAtStart', label: 'How the bank stands at the start' },
  { key: 'source', label: 'Where it comes from' },
]

function namesInWords(value: unknown): string {
  return Array.isArray(value) ? listed(value.map(String)) : ''
}

type Members = Readonly<Record<string, unknown>>

/** "A: serial 4711, tap 6 left, counter 1204" */
function unitsInWords(value: unknown): string {
  if (!Array.isArray(value)) return ''
  return value
    .map((unit: Members) => {
      const said = [
        unit.serialNumber && `serial ${unit.serialNumber}`,
        unit.ratingKva !== undefined && `${unit.ratingKva} kVA`,
        unit.tapLeft !== undefined && `tap ${unit.tapLeft} left`,
        unit.counterLeft !== undefined && `counter ${unit.counterLeft} left`,
        unit.loadVAfter !== undefined && `${unit.loadVAfter} V at the load side`,
      ].filter(Boolean)
      return `${unit.phase}: ${said.length > 0 ? said.join(', ') : 'nothing entered'}`
    })
    .join('; ')
}

function settingsInWords(value: unknown): string {
  if (typeof value !== 'object' || value === null) return ''
  const { bandCentreV, bandwidthV, delayS, rV, xV, ptRatio, ctPrimaryA } = value as Members
  return `${bandCentreV} V, bandwidth ${bandwidthV} V, ${delayS} s, R ${rV} V, X ${xV} V, ratio ${ptRatio}, CT ${ctPrimaryA} A`
}

function measuresInWords(value: unknown): string {
  if (!Array.isArray(value) || value.length === 0) return ''
  const done = value.filter(({ isDone }: Members) => isDone === true).length
  return `${done} of ${counted(value.length, 'measure')} done`
}
