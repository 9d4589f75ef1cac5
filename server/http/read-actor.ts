import { ACTOR_ID_HEADER, ACTOR_ROLE_HEADER, Actor, ROLES } from '#contract/actor.ts'
import { Refusal } from '../services/refusal.ts'

/** Who reads without saying so: the role with the fewest rights. */
const UNNAMED: Actor = { id: 'unnamed', role: 'crew' }

/**
 * The actor of a request. A GET may leave it out, since a link or an event stream cannot carry headers.
 *
 * @throws Refusal `actor-missing`
 */
export function readActor(request: {
  method: string
  header(name: string): string | undefined
}): Actor {
  const id = request.header(ACTOR_ID_HEADER)
  const role = request.header(ACTOR_ROLE_HEADER)
  const isReading = request.method === 'GET' || request.method === 'HEAD'
  if (id === undefined && role === undefined && isReading) return UNNAMED
  const parsed = Actor.safeParse({ id, role })
  if (parsed.success) return parsed.data
  throw new Refusal(
    'actor-missing',
    `Say who asks in the headers ${ACTOR_ID_HEADER} (letters, digits, dots and hyphens) and ${ACTOR_ROLE_HEADER} (${ROLES.join(', ')}).`,
  )
}
