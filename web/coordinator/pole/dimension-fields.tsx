import { DIMENSIONS, type Dimension } from '#domain/avian/pole-top/framing.ts'
import { DIMENSION_WORDS } from './dimension-words.ts'
import type { PoleTopDraft, PoleTopFaults } from './pole-top-draft.ts'
import { TextField } from './text-field.tsx'

interface Props {
  readonly draft: PoleTopDraft
  readonly faults: PoleTopFaults
  readonly onType: (dimension: Dimension, text: string) => void
}

/** Measured dimensions; an empty field leaves the usual one of the framing. */
export function DimensionFields({ draft, faults, onType }: Props) {
  const unit = draft.units === 'us' ? 'in' : 'cm'
  return (
    <fieldset className="part-boxes">
      <legend className="field-label">Measured dimensions, in {unit}</legend>
      {DIMENSIONS.map((dimension) => (
        <TextField
          key={dimension}
          label={DIMENSION_WORDS[dimension]}
          unit={unit}
          type="decimal"
          fault={faults[dimension]}
          value={draft.measured[dimension] ?? ''}
          onType={(text) => onType(dimension, text)}
        />
      ))}
    </fieldset>
  )
}
