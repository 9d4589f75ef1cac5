import { PLACE_FIELDS } from './find-fields.ts'
import type { FieldFold, FormField } from './form-field.ts'
import { seasonsInWords } from './nest-seasons.ts'

const SEASON_DAY = 'Give month and day, as 02-15.'

export const NEST_FOLDS: readonly FieldFold[] = [
  {
    title: 'The nest',
    fields: [
      { key: 'species', label: 'Species', control: 'line', fault: 'Say which species.' },
      {
        key: 'status',
        label: 'Status now',
        control: 'choice',
        options: ['in use', 'not in use', 'unknown'],
      },
      {
        key: 'lastSeen',
        label: 'Last seen',
        control: 'date',
        fault: 'Give a date, as 2026-11-25.',
      },
      {
        key: 'platform',
        label: 'Platform',
        control: 'choice',
        options: ['none', 'on this pole', 'on a pole of its own'],
      },
      { key: 'note', label: 'Note', control: 'words' },
    ],
  },
  {
    title: 'Buffer and season of its own',
    fields: [
      {
        key: 'bufferM',
        label: 'Buffer',
        control: 'number',
        unit: 'm',
        hint: '0.5 mi is 805 m, 660 ft is 201 m.',
        fault: 'Give metres, 0 or more, or take what the rule set says.',
      },
      {
        key: 'seasonFrom',
        label: 'Season from',
        control: 'line',
        hint: 'Month and day, as 12-15.',
        fault: SEASON_DAY,
      },
      {
        key: 'seasonTo',
        label: 'Season to',
        control: 'line',
        hint: 'May lie after New Year.',
        fault: SEASON_DAY,
      },
      { key: 'citation', label: 'Source of the buffer', control: 'line' },
    ],
  },
]

/** How it fared, season by season; kept as JSON in the form and told in words. */
export const SEASONS_FIELD: FormField = {
  key: 'seasons',
  label: 'Seasons',
  control: 'line',
  inWords: (value) => seasonsInWords(String(value)),
}

export const NEST_FIELDS: readonly FormField[] = [
  ...PLACE_FIELDS,
  ...NEST_FOLDS.flatMap(({ fields }) => fields),
  SEASONS_FIELD,
]
