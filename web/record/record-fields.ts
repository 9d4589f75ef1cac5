import { Role } from '#contract/actor.ts'
import type { Subject } from '#contract/history.ts'
import { counted, listed, usd } from '../state/format.ts'
import {
  BIRD_SETTINGS_FIELDS,
  INCIDENT_FIELDS,
  NEST_FIELDS,
  POLE_TOP_FIELDS,
  PROGRAMME_FIELDS,
} from './bird-record-fields.ts'
import { AS_LEFT_FIELDS, JOB_HISTORY_FIELDS, SEQUENCE_FIELDS } from './job-record-fields.ts'
import { ROLE_WORDS } from './role-words.ts'

/** A member of a record that a person would know by this name. */
export interface RecordField {
  readonly key: string
  readonly label: string
  /** Left out: the value as it is. Empty text is nothing. */
  readonly inWords?: (value: unknown) => string
}

const STATE_OF_ITEM: Readonly<Record<string, string>> = {
  planned: 'planned',
  on: 'on the pole',
  failed: 'failed',
  removed: 'taken off the pole',
}

const PERSON_STATES: Readonly<Record<string, string>> = {
  invited: 'invited',
  active: 'can sign in',
  closed: 'closed, cannot sign in',
}

const STUDY_STATES: Readonly<Record<string, string>> = {
  queued: 'waiting for its turn',
  running: 'under way',
  done: 'done',
  cancelled: 'cancelled',
  failed: 'came to no result',
}

const oneOf = (words: Readonly<Record<string, string>>) => (value: unknown) =>
  words[String(value)] ?? String(value ?? '')

export const PROTECTION_FIELDS: readonly RecordField[] = [
  { key: 'pole', label: 'Pole' },
  { key: 'kind', label: 'Kind' },
  { key: 'what', label: 'What it covers or where it sits' },
  { key: 'state', label: 'State', inWords: oneOf(STATE_OF_ITEM) },
  { key: 'on', label: 'Date of the state' },
  { key: 'measure', label: 'Measure' },
  { key: 'partIds', label: 'Parts that it covers', inWords: partsInWords },
  { key: 'dimensionM', label: 'New dimension', inWords: (value) => `${String(value)} m` },
  { key: 'materialClass', label: 'Material class' },
  { key: 'installedBy', label: 'Installed by' },
  { key: 'costUsd', label: 'Cost', inWords: (value) => usd(Number(value)) },
  { key: 'inspectEveryMonths', label: 'Inspect every', inWords: count('month') },
  { key: 'condition', label: 'Condition' },
  { key: 'inspectedOn', label: 'Inspected on' },
  { key: 'note', label: 'Note' },
]

export const PROPOSAL_FIELDS: readonly RecordField[] = [
  { key: 'name', label: 'Name' },
  { key: 'note', label: 'Note' },
]

export const PERSON_FIELDS: readonly RecordField[] = [
  { key: 'name', label: 'Name' },
  { key: 'email', label: 'Email' },
  { key: 'roles', label: 'Roles', inWords: rolesInWords },
  { key: 'state', label: 'Account', inWords: oneOf(PERSON_STATES) },
]

/** What a person may see change, by kind of thing; whatever is not here is told in one word. */
export const RECORD_FIELDS: Readonly<Record<Subject, readonly RecordField[]>> = {
  feeder: [
    { key: 'name', label: 'Name' },
    { key: 'nominalKv', label: 'Nominal voltage', inWords: (value) => `${String(value)} kV` },
    { key: 'poles', label: 'Poles', inWords: count('pole') },
    { key: 'spans', label: 'Spans', inWords: count('span') },
    { key: 'customers', label: 'Customers', inWords: count('customer') },
  ],
  study: [{ key: 'state', label: 'State', inWords: oneOf(STUDY_STATES) }],
  proposal: PROPOSAL_FIELDS,
  protection: PROTECTION_FIELDS,
  nest: NEST_FIELDS,
  incident: INCIDENT_FIELDS,
  'pole-top': POLE_TOP_FIELDS,
  programme: PROGRAMME_FIELDS,
  'bird-settings': BIRD_SETTINGS_FIELDS,
  job: JOB_HISTORY_FIELDS,
  'job-entry': [],
  'as-left': AS_LEFT_FIELDS,
  'step-sequence': SEQUENCE_FIELDS,
  attachment: [
    { key: 'fileName', label: 'Name of the file' },
    { key: 'note', label: 'Note' },
  ],
  person: PERSON_FIELDS,
  token: [
    { key: 'name', label: 'Name' },
    { key: 'role', label: 'Role', inWords: (value) => rolesInWords([value]) },
    { key: 'endsAt', label: 'Ends', inWords: (value) => String(value).slice(0, 10) },
  ],
}

/** As a person reads it; empty where nothing stands there. */
export function shownValue({ inWords }: RecordField, value: unknown): string {
  if (value === undefined || value === null || value === '') return ''
  return inWords ? inWords(value) : String(value)
}

function rolesInWords(value: unknown): string {
  if (!Array.isArray(value)) return ''
  return listed(
    value.map((role: unknown) => {
      const known = Role.safeParse(role)
      return known.success ? ROLE_WORDS[known.data] : String(role)
    }),
  )
}

/** Ids of parts, from the record as a list or from a form one a line. */
function partsInWords(value: unknown): string {
  return listed(Array.isArray(value) ? value.map(String) : String(value).split('\n'))
}

function count(one: string): (value: unknown) => string {
  return (value) => counted(Array.isArray(value) ? value.length : Number(value), one)
}
