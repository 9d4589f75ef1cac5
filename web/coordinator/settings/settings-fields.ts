import type { RecordField } from '../../record/record-fields.ts'

/** Parts of the settings as a person knows them; each is chosen whole where two changed it. */
export const SETTINGS_FIELDS: readonly RecordField[] = [
  { key: 'guidance', label: 'Separation', inWords: jsonInWords },
  { key: 'designSpeciesId', label: 'Design species', inWords: jsonInWords },
  { key: 'countWetFeathers', label: 'Wet feathers', inWords: jsonInWords },
  { key: 'species', label: 'Sizes of species', inWords: jsonInWords },
  { key: 'measures', label: 'Costs and lives of measures', inWords: jsonInWords },
  { key: 'weights', label: 'Weights of exposure', inWords: jsonInWords },
  { key: 'bufferSetId', label: 'Buffer set in force', inWords: jsonInWords },
  { key: 'bufferSets', label: 'Own buffer sets', inWords: jsonInWords },
  { key: 'followUpEagle', label: 'Follow-up after an eagle, days', inWords: jsonInWords },
  { key: 'followUpOther', label: 'Follow-up after another bird, days', inWords: jsonInWords },
  { key: 'inspectEveryMonths', label: 'Months between looks', inWords: jsonInWords },
  { key: 'publishedIndex', label: 'Coefficients of the published index', inWords: jsonInWords },
]

/** Settings as text without brackets and quotes: "nest: 3; habitat: 1.5". */
export function jsonInWords(text: unknown): string {
  return valueInWords(JSON.parse(String(text)))
}

function valueInWords(value: unknown): string {
  if (value === true) return 'yes'
  if (value === false) return 'no'
  if (Array.isArray(value)) {
    return value.length === 0 ? 'as shipped' : value.map(valueInWords).join(' | ')
  }
  if (typeof value !== 'object' || value === null) return String(value)
  const members = Object.entries(value)
  if (members.length === 0) return 'as shipped'
  return members.map(([key, member]) => `${nameInWords(key)}: ${valueInWords(member)}`).join('; ')
}

/** "horizontalM" as "horizontal (m)"; names of units stand last. */
function nameInWords(key: string): string {
  const unit = /(?<=[a-z])(M|Usd)$/.exec(key)?.[0]
  const words = (unit ? key.slice(0, -unit.length) : key)
    .replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
    .trim()
  if (!unit) return words
  return `${words} (${unit === 'M' ? 'm' : '$'})`
}
