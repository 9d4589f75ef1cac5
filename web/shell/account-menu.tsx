import { useId } from 'react'
import { useMay, useMe } from '../api/account.ts'
import { actingRole } from '../api/actor.ts'
import { ROLE_WORDS } from '../record/role-words.ts'
import { useSelection } from '../state/selection.ts'
import { openSheet } from '../state/sheet.ts'
import { Button } from '../ui/button.tsx'
import './account-menu.css'
import { SignOutRow } from './sign-out-row.tsx'

/** Who is signed in and acts as what, with the ways to the account, to the people and out. */
export function AccountMenu() {
  const me = useMe().data
  const { person } = useSelection()
  const menuId = useId()
  if (!me) return null
  const role = ROLE_WORDS[actingRole(me.roles, 'anyone', person)]
  return (
    <>
      <button type="button" className="account-menu-button" popoverTarget={menuId}>
        <span className="top-bar-label">Signed in as {role}</span>
        <span className="account-menu-name">{me.name}</span>
      </button>
      <div id={menuId} popover="auto" className="account-menu">
        <MenuRows isDemo={me.isDemo} />
      </div>
    </>
  )
}

function MenuRows({ isDemo }: { readonly isDemo: boolean }) {
  const mayManage = useMay('manage people and tokens')
  const maySeeWork = useMay('see who changed what')
  return (
    <>
      <Button look="plain" onClick={() => openSheet('account')}>
        Account and sessions
      </Button>
      {maySeeWork && (
        <Button look="plain" onClick={() => openSheet('work')}>
          Work under way and done
        </Button>
      )}
      {mayManage && (
        <Button look="plain" onClick={() => openSheet('people')}>
          People and tokens
        </Button>
      )}
      <SignOutRow isDemo={isDemo} />
    </>
  )
}
