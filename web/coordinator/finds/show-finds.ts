import { select, useSelection } from '../../state/selection.ts'
import { addressOfFindsView, type FindsView, findsViewOf } from './finds-view.ts'

/** Opens a form or a record on the desk of finds; null closes what is open. */
export function showFinds(view: FindsView): void {
  select({ view: addressOfFindsView(view) })
}

export function useFindsView(): FindsView {
  return findsViewOf(useSelection().view)
}
