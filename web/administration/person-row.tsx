import type { Person } from '#contract/people.ts'
import { Moment } from '../record/moment.tsx'
import { rolesInWords } from '../record/roles-in-words.ts'

export function PersonRow({ person }: { readonly person: Person }) {
  const { name, email, roles, state, lastSignInAt } = person
  return (
    <span className="person-row" data-closed={state === 'closed'}>
      <span>
        <strong>{name}</strong>
        <br />
        <span className="small soft person-email">{email}</span>
      </span>
      <span>
        {rolesInWords(roles)}
        <br />
        <span className="small soft">
          {state === 'closed' && 'Closed: cannot sign in'}
          {state === 'invited' && 'Invited, has not accepted yet'}
          {state === 'active' &&
            (lastSignInAt ? (
              <>
                Last signed in <Moment at={lastSignInAt} />
              </>
            ) : (
              'Has not signed in yet'
            ))}
        </span>
      </span>
    </span>
  )
}
