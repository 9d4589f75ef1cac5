import { counted, listed } from '../state/format.ts'
import type { RecordField } from './record-fields.ts'

const metres = (value: unknown) => `${String(value)} m`
const yesOrNo = (value: unknown) => (value === true ? 'yes' : 'no')

const inPlace = (value: unknown) =>
  Array.isArray(value) ? value.map((number) => Number(number).toFixed(5)).join(', ') : ''

const inList = (value: unknown) => (Array.isArray(value) ? listed(value.map(String)) : '')

const howMany = (one: string, many?: string) => (value: unknown) =>
  Array.isArray(value) && value.length > 0 ? counted(value.length, one, many) : ''

/** "arm length 2.44 m, arm drop 0.3 m"; empty where nothing was entered. */
const measured = (value: unknown) =>
  pairsOf(value)
    .map(([name, lengthM]) => `${name} ${lengthM} m`)
    .join(', ')

const asWritten = (value: unknown) =>
  pairsOf(value)
    .map(([name, member]) => `${name} ${member}`)
    .join(', ')

function pairsOf(value: unknown): [string, string][] {
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).map(([name, member]) => [name, String(member)])
}

export const NEST_FIELDS: readonly RecordField[] = [
  { key: 'species', label: 'Species' },
  { key: 'at', label: 'Place', inWords: inPlace },
  { key: 'pole', label: 'Pole' },
  { key: 'platform', label: 'Platform' },
  { key: 'status', label: 'Status' },
  { key: 'lastSeen', label: 'Last seen' },
  { key: 'bufferM', label: 'Buffer', inWords: metres },
  { key: 'seasonFrom', label: 'Season from' },
  { key: 'seasonTo', label: 'Season to' },
  { key: 'citation', label: 'Source' },
  { key: 'seasons', label: 'Seasons', inWords: seasonsInWords },
  { key: 'note', label: 'Note' },
]

function seasonsInWords(value: unknown): string {
  if (!Array.isArray(value)) return ''
  return value
    .map((season: { year?: unknown; status?: unknown }) => `${season.year} ${season.status}`)
    .join(', ')
}

export const INCIDENT_FIELDS: readonly RecordField[] = [
  { key: 'species', label: 'Species' },
  { key: 'speciesCertainty', label: 'How sure of the species' },
  { key: 'foundOn', label: 'Found on' },
  { key: 'foundAt', label: 'Found at' },
  { key: 'diedOn', label: 'Died on' },
  { key: 'at', label: 'Place', inWords: inPlace },
  { key: 'pole', label: 'Pole' },
  { key: 'cause', label: 'Cause' },
  { key: 'count', label: 'Birds' },
  { key: 'outcome', label: 'Outcome' },
  { key: 'age', label: 'Age' },
  { key: 'sex', label: 'Sex' },
  { key: 'finder', label: 'Found by' },
  { key: 'district', label: 'District' },
  { key: 'carcass', label: 'Carcass' },
  { key: 'burnsOnBird', label: 'Burns on the bird' },
  { key: 'burnsOnHardware', label: 'Burns on the hardware' },
  { key: 'entryAndExit', label: 'Where current went in and out' },
  { key: 'necropsy', label: 'Necropsy' },
  { key: 'necropsyResult', label: 'Result of the necropsy' },
  { key: 'suspectedPartA', label: 'Suspected part' },
  { key: 'suspectedPartB', label: 'Other suspected part' },
  { key: 'poleAtEvent', label: 'On the pole when it happened' },
  { key: 'hadOutage', label: 'Outage', inWords: yesOrNo },
  { key: 'deviceOperated', label: 'Device that operated' },
  { key: 'customersOut', label: 'Customers out' },
  { key: 'outageMin', label: 'Minutes out' },
  { key: 'disposition', label: 'Where the bird went' },
  { key: 'permit', label: 'Permit' },
  { key: 'agency', label: 'Agency' },
  { key: 'agencyToldOn', label: 'Agency told on' },
  { key: 'agencyToldBy', label: 'Agency told by' },
  { key: 'recommended', label: 'Recommended' },
  { key: 'visitDueOn', label: 'Visit due' },
  { key: 'visitedOn', label: 'Visited' },
  { key: 'fixDueOn', label: 'Work due' },
  { key: 'fixedOn', label: 'Work done' },
  { key: 'inspectionDueOn', label: 'Look after the work due' },
  { key: 'inspectedOn', label: 'Looked at after the work' },
  { key: 'neighboursDueOn', label: 'Similar poles due' },
  { key: 'neighboursDoneOn', label: 'Similar poles done' },
  { key: 'verifiedBy', label: 'Verified by' },
  { key: 'note', label: 'Note' },
]

export const POLE_TOP_FIELDS: readonly RecordField[] = [
  { key: 'framing', label: 'Framing' },
  { key: 'measured', label: 'Measured', inWords: measured },
  { key: 'armMaterial', label: 'Arm' },
  { key: 'groundWire', label: 'Ground wire' },
  { key: 'regulatorConnection', label: 'Connection of the regulators' },
  { key: 'regulatorMounting', label: 'Mounting of the regulators' },
  { key: 'withoutParts', label: 'Without the parts', inWords: inList },
  { key: 'addedParts', label: 'With', inWords: howMany('added part') },
  { key: 'note', label: 'Note' },
]

export const PROGRAMME_FIELDS: readonly RecordField[] = [
  { key: 'name', label: 'Name' },
  { key: 'state', label: 'State' },
  { key: 'note', label: 'Note' },
]

export const BIRD_SETTINGS_FIELDS: readonly RecordField[] = [
  { key: 'guidance', label: 'Guidance', inWords: asWritten },
  { key: 'designSpeciesId', label: 'Design species' },
  { key: 'countWetFeathers', label: 'Counting wet feathers', inWords: yesOrNo },
  { key: 'species', label: 'Sizes of species', inWords: howMany('species', 'species') },
  { key: 'measures', label: 'Measures', inWords: howMany('measure') },
  { key: 'weights', label: 'Weights of the exposure', inWords: asWritten },
  { key: 'bufferSets', label: 'Buffer sets', inWords: howMany('set') },
  { key: 'bufferSetId', label: 'Buffer set in force' },
  { key: 'followUpEagle', label: 'Days after an eagle', inWords: asWritten },
  { key: 'followUpOther', label: 'Days after another bird', inWords: asWritten },
  {
    key: 'inspectEveryMonths',
    label: 'Looked at every',
    inWords: (value) => counted(Number(value), 'month'),
  },
  { key: 'publishedIndex', label: 'Published index', inWords: asWritten },
]
