import { select, useSelection } from '../../state/selection.ts'
import { localToday } from '../../state/today.ts'
import { type AccountView, accountViewOf, addressOfAccountView } from './account-view.ts'

export function showAccount(view: AccountView): void {
  select({ view: addressOfAccountView(view) })
}

export function useAccountView(): AccountView {
  return accountViewOf(useSelection().view, localToday())
}
