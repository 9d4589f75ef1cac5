import type { Fields } from '../../record/merge-fields.ts'
import type { Faults } from './check-as-left.ts'

/** What each part of the form is given. */
export interface PartProps {
  readonly fields: Fields
  readonly faults: Faults
  readonly onType: (change: Fields) => void
}
