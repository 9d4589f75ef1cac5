import { select } from '../../state/selection.ts'
import { addressOfItemView, type ItemView } from './item-view.ts'

/** Opens one form, history or folder of files in the pole panel; null closes it. */
export function showItemView(view: ItemView): void {
  select({ view: addressOfItemView(view) })
}
