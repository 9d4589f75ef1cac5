import { AsLeft, SettingsAsLeft } from '#domain/jobs/as-left.ts'
import { stepLeftOutFor } from '#domain/jobs/bird-work-left-out.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { SETTING_FIELDS } from '../../jobs/setting-fields.ts'
import type { Fields } from '../../record/merge-fields.ts'
import { numberOfText } from '../work/number-of-text.ts'
import {
  type FormShape,
  type MeasureRow,
  measureField,
  settingField,
  unitField,
} from './as-left-fields.ts'

/** By the key of the field: what is wrong and what to do. */
export type Faults = Readonly<Record<string, string>>

export type CheckedAsLeft =
  | { readonly asLeft: AsLeft }
  | { readonly asLeft: null; readonly faults: Faults }

/**
 * Turns what was typed into what is sent; nothing that was typed is left out unsaid.
 *
 * @param entries of the job: bird work whose step was left out is not done without a word
 */
export function checkAsLeft(
  shape: FormShape,
  fields: Fields,
  entries: readonly JobEntry[],
): CheckedAsLeft {
  const faults: Record<string, string> = {}
  const number = (key: string) => {
    const typed = fields[key] ?? ''
    const read = numberOfText(typed)
    if (read === null && typed.trim() !== '') faults[key] = `“${typed}” is not a number.`
    return read
  }
  const units = shape.phases.map((phase) => ({
    phase,
    ...Object.fromEntries(
      shape.unitFields.flatMap(({ key, kind }): [string, string | number][] => {
        const name = unitField(phase, key)
        if (kind === 'text') return [[key, fields[name] ?? '']]
        const read = number(name)
        return read === null ? [] : [[key, read]]
      }),
    ),
  }))
  const settings = shape.hasSettings ? settingsOf(number, faults) : undefined
  const measures = shape.measures.map((row) => measureOf(row, entries, fields, faults))
  if ((fields.signedBy ?? '').trim() === '') {
    faults.signedBy = 'Somebody signs for it: type the name.'
  }
  const typed = {
    on: fields.on ?? '',
    crew: (fields.crew ?? '').split('\n').filter((name) => name.trim() !== ''),
    units,
    ...(settings && { settings }),
    measures,
    remarks: fields.remarks ?? '',
    signedBy: fields.signedBy ?? '',
    signaturePath: fields.signaturePath ?? '',
  }
  const checked = AsLeft.safeParse(typed)
  if (checked.success && Object.keys(faults).length === 0) return { asLeft: checked.data }
  for (const { path, message } of checked.error?.issues ?? []) {
    const key = keyOfPath(shape, path)
    faults[key] ??= wordsOfIssue(message)
  }
  return { asLeft: null, faults }
}

type ReadNumber = (key: string) => number | null

function settingsOf(number: ReadNumber, faults: Record<string, string>): Record<string, unknown> {
  const read = SETTING_FIELDS.map(({ key }) => [key, number(settingField(key))] as const)
  for (const [key, value] of read) {
    if (value === null) faults[settingField(key)] ??= 'Read it off at the control and type it.'
  }
  const settings = SettingsAsLeft.partial().safeParse(
    Object.fromEntries(read.filter(([, value]) => value !== null)),
  )
  for (const { path, message } of settings.error?.issues ?? []) {
    faults[`settings.${String(path[0])}`] ??= wordsOfIssue(message)
  }
  return Object.fromEntries(read)
}

function measureOf(
  row: MeasureRow,
  entries: readonly JobEntry[],
  fields: Fields,
  faults: Record<string, string>,
) {
  const said = fields[measureField(row, 'isDone')] ?? ''
  const why = (fields[measureField(row, 'why')] ?? '').trim()
  const materialClass = (fields[measureField(row, 'materialClass')] ?? '').trim()
  if (said === '') faults[measureField(row, 'isDone')] = 'Say whether it was done.'
  if (said === 'not done' && why === '') {
    faults[measureField(row, 'why')] = 'Say why it was not done.'
  }
  const isDoubtful = said === 'done' && stepLeftOutFor(row, entries) !== undefined
  if (isDoubtful && why === '') {
    faults[measureField(row, 'why')] = 'Say how it was done, since its step was left out.'
  }
  return {
    ...row,
    isDone: said === 'done',
    ...(why !== '' && (said === 'not done' || isDoubtful) && { why }),
    ...(materialClass !== '' && { materialClass }),
  }
}

/** Where in the form a member of the record stands. */
function keyOfPath(shape: FormShape, path: readonly PropertyKey[]): string {
  const [part, at, member] = path.map(String)
  if (part === 'units') {
    const phase = shape.phases[Number(at)]
    return `unit.${phase}.${member}`
  }
  if (part === 'measures') {
    const row = shape.measures[Number(at)]
    return row ? measureField(row, member ?? '') : 'measures'
  }
  return part === 'settings' ? `settings.${at}` : (part ?? 'remarks')
}

/** "Too big: expected number to be <=16" and the like, in plain words. */
function wordsOfIssue(message: string): string {
  const most = /<=?\s*(-?[\d.]+)/.exec(message)?.[1]
  const least = />=?\s*(-?[\d.]+)/.exec(message)?.[1]
  if (most !== undefined) return `At most ${most}.`
  if (least !== undefined) return least === '0' ? 'Not below zero.' : `At least ${least}.`
  if (/int/.test(message)) return 'A whole number.'
  return message
}
