import { INCIDENT_CAUSES } from '#domain/feeder/birds.ts'
import type { FieldFold, FormField } from './form-field.ts'

const line = (key: string, label: string, more: Partial<FormField> = {}): FormField => ({
  key,
  label,
  control: 'line',
  ...more,
})
const words = (key: string, label: string, hint?: string): FormField => ({
  key,
  label,
  control: 'words',
  ...(hint && { hint }),
})
const date = (key: string, label: string, hint?: string): FormField => ({
  key,
  label,
  control: 'date',
  ...(hint && { hint }),
  fault: 'Give a date, as 2026-11-25.',
})
const choice = (key: string, label: string, options: readonly string[]): FormField => ({
  key,
  label,
  control: 'choice',
  options,
})

/** Where it was found stands apart: it can be chosen on the map. */
export const PLACE_FIELDS: readonly FormField[] = [
  line('pole', 'Pole', { hint: 'Empty where it lay away from any pole.' }),
  line('at', 'Latitude and longitude'),
]

/** The two parts that it is thought to have touched, by their ids in the drawing of the pole. */
export const SUSPECTED_FIELDS: readonly FormField[] = [
  line('suspectedPartA', 'Suspected part'),
  line('suspectedPartB', 'Touched together with'),
]

/**
 * What a record of a find should have is from memory of what utilities and agencies ask for; only
 * the first fold has fields that are needed.
 */
export const FIND_FOLDS: readonly FieldFold[] = [
  {
    title: 'What was found, and when',
    fields: [
      line('species', 'Species', { fault: 'Say which species, or “unknown raptor”.' }),
      { ...choice('cause', 'Cause', INCIDENT_CAUSES), fault: 'Choose the cause, or “unknown”.' },
      date('foundOn', 'Found on'),
      { key: 'foundAt', label: 'At what time', control: 'time' },
      date('diedOn', 'Died on, estimated'),
      line('finder', 'Found by'),
      line('district', 'District'),
      words('note', 'Note'),
    ],
  },
  {
    title: 'The bird',
    fields: [
      {
        key: 'count',
        label: 'Birds found',
        control: 'number',
        hint: 'One when left empty.',
        fault: 'Give a whole number, 1 or more.',
      },
      choice('outcome', 'State of the bird', ['dead', 'injured', 'flew off']),
      choice('speciesCertainty', 'How sure of the species', ['certain', 'probable', 'unsure']),
      choice('age', 'Age', ['adult', 'subadult', 'juvenile', 'nestling', 'unknown']),
      choice('sex', 'Sex', ['female', 'male', 'unknown']),
    ],
  },
  {
    title: 'Evidence',
    fields: [
      choice('carcass', 'Carcass', ['fresh', 'decayed', 'bones', 'feathers only', 'none']),
      words('burnsOnBird', 'Burns on the bird', 'Where, and how large.'),
      words('entryAndExit', 'Where current went in and out'),
      words('burnsOnHardware', 'Burns on the hardware', 'On which part.'),
      choice('necropsy', 'Necropsy', ['not asked for', 'asked for', 'done']),
      words('necropsyResult', 'Result of the necropsy'),
    ],
  },
  {
    title: 'The pole then',
    fields: [words('poleAtEvent', 'What was on the pole', 'Covers, perch, nest, as it was then.')],
  },
  {
    title: 'Power',
    fields: [
      { key: 'hadOutage', label: 'Outage', control: 'yes or no' },
      words('deviceOperated', 'Protective device', 'Which one, and what it did.'),
      {
        key: 'customersOut',
        label: 'Customers out',
        control: 'number',
        fault: 'Give a whole number, 0 or more.',
      },
      {
        key: 'outageMin',
        label: 'Outage lasted',
        control: 'number',
        unit: 'min',
        fault: 'Give minutes, 0 or more.',
      },
    ],
  },
  {
    title: 'What was done, and what is due',
    fields: [
      words('disposition', 'What became of the carcass'),
      words('permit', 'Permit for handling it'),
      line('agency', 'Agency told'),
      date('agencyToldOn', 'Told on'),
      line('agencyToldBy', 'Told by'),
      words('recommended', 'Recommended fix'),
      date('visitDueOn', 'Visit due'),
      date('visitedOn', 'Visited on'),
      date('fixDueOn', 'Fix due'),
      date('fixedOn', 'Fixed on'),
      date('inspectionDueOn', 'Inspection due'),
      date('inspectedOn', 'Inspected on'),
      date('neighboursDueOn', 'Similar poles nearby: due'),
      date('neighboursDoneOn', 'Similar poles nearby: done on'),
      line('verifiedBy', 'Verified by'),
    ],
  },
]

export const FIND_FIELDS: readonly FormField[] = [
  ...PLACE_FIELDS,
  ...SUSPECTED_FIELDS,
  ...FIND_FOLDS.flatMap(({ fields }) => fields),
]
