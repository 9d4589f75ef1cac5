import { DIMENSIONS } from '#domain/avian/pole-top/framing.ts'
import type { RecordField } from '../../record/record-fields.ts'
import type { Units } from '../../state/address.ts'
import { counted } from '../../state/format.ts'
import { DIMENSION_WORDS } from './dimension-words.ts'
import { typedLength } from './pole-top-draft.ts'

/** Fields of a pole top as two versions of it are held side by side. */
export function poleTopFields(units: Units): RecordField[] {
  const unit = units === 'us' ? 'in' : 'cm'
  return [
    { key: 'framing', label: 'Framing' },
    ...DIMENSIONS.map((key) => ({
      key,
      label: DIMENSION_WORDS[key],
      inWords: (value: unknown) => `${typedLength(Number(value), units)} ${unit}`,
    })),
    { key: 'armMaterial', label: 'Arm' },
    { key: 'groundWire', label: 'Ground wire' },
    { key: 'regulatorConnection', label: 'Regulators connected' },
    { key: 'regulatorMounting', label: 'Regulators mounted' },
    {
      key: 'withoutParts',
      label: 'Parts that are not there',
      inWords: (value) => String(value).split('\n').join(', '),
    },
    {
      key: 'addedParts',
      label: 'Added parts',
      inWords: (value) => counted((JSON.parse(String(value)) as unknown[]).length, 'part'),
    },
    { key: 'note', label: 'Note' },
  ]
}
