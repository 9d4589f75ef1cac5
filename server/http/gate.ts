import type { Context } from 'hono'
import { ACTING_ROLE_HEADER, type Role } from '#contract/actor.ts'
import { type Asker, mayDo, RIGHTS, type Right } from '#contract/rights.ts'
import type { Route } from '#contract/route.ts'
import type { People } from '../people/people.ts'
import type { PersonVisit, Visit } from '../people/visit.ts'
import { Refusal } from '../services/refusal.ts'
import { sendCookies } from './asking-of.ts'
import type { Gate } from './serve-routes.ts'

/**
 * The only door: says who asks from the session cookie or the token, and holds the table of rights
 * against the row of the route.
 */
export function admission(people: People): Gate['admit'] {
  return async (context, route) => {
    const visit = await people.visit({
      cookies: context.req.header('cookie') ?? null,
      authorization: context.req.header('authorization') ?? null,
      actingRole: context.req.header(ACTING_ROLE_HEADER) ?? null,
    })
    context.set('visit', visit)
    if (visit && 'session' in visit && visit.cookie !== null) sendCookies(context, [visit.cookie])
    return admit(visit, route.right, context)
  }
}

/** Of a route that is not for anyone. */
export function visitOf(context: Context): Visit {
  const visit = context.get('visit') as Visit | null
  if (visit) return visit
  throw new Refusal('sign-in-needed', 'Sign in first.')
}

/** Of a person at their own account; a machine has none. */
export function ownVisit(context: Context): PersonVisit {
  const visit = visitOf(context)
  if ('session' in visit) return visit
  throw new Refusal('not-allowed', 'A token has no account of its own. Sign in as a person.')
}

function admit(visit: Visit | null, right: Route['right'], context: Context): Asker | null {
  if (right === 'anyone') return visit?.asker ?? null
  if (!visit) throw new Refusal('sign-in-needed', wordsForNobody(context))
  if (!mayDo(visit.asker, right)) throw new Refusal('not-allowed', wordsFor(visit.asker, right))
  return visit.asker
}

function wordsForNobody(context: Context): string {
  return context.req.header('authorization') === undefined
    ? 'Sign in first; your session may have ended.'
    : 'The token is not known, has ended or was revoked.'
}

function wordsFor({ role, only }: Asker, right: Right): string {
  const roles: readonly Role[] = RIGHTS[right]
  if (only && roles.includes(role)) return `The token may not ${right}.`
  return `The role ${role} may not ${right}; ${roles.join(' or ')} may.`
}
