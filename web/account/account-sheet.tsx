import { useMe } from '../api/account.ts'
import { useSettings } from '../api/feeders.ts'
import { rolesInWords } from '../record/roles-in-words.ts'
import { Dialog } from '../ui/dialog.tsx'
import { PasskeyList } from './passkey-list.tsx'
import { PasswordForm } from './password-form.tsx'
import { SecondFactor } from './second-factor.tsx'
import { SessionList } from './session-list.tsx'
import './account.css'

/** One's own account: who one is here, where one is signed in, and by what. */
export function AccountSheet({ onClose }: { readonly onClose: () => void }) {
  const me = useMe().data
  const hasPasskeys = useSettings().data?.hasPasskeys ?? false
  if (!me) return null
  return (
    <Dialog title="Your account" isWide onClose={onClose}>
      <div className="account">
        <dl className="account-facts">
          <dt>Name</dt>
          <dd>{me.name}</dd>
          {me.email !== null && !me.isDemo && (
            <>
              <dt>Email</dt>
              <dd>{me.email}</dd>
            </>
          )}
          <dt>{me.roles.length === 1 ? 'Role' : 'Roles'}</dt>
          <dd>{rolesInWords(me.roles)}</dd>
        </dl>
        <p className="soft">
          {me.isDemo
            ? 'One of the invented people of the demo: no password, and everyone on this machine can enter as them.'
            : 'Name and roles are changed by an administrator.'}
        </p>
        <SessionList />
        {!me.isDemo && (
          <>
            <PasswordForm />
            <SecondFactor isOn={me.hasSecondFactor} />
            {hasPasskeys && <PasskeyList />}
          </>
        )}
      </div>
    </Dialog>
  )
}
