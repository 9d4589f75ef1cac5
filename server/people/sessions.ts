import type { SignedInSession } from '#contract/account.ts'
import { Refusal } from '../services/refusal.ts'
import { noteOwnStep } from './note-own-step.ts'
import type { PeoplePorts } from './people-ports.ts'
import { hasSessionEnded } from './session-times.ts'
import type { PersonVisit } from './visit.ts'

/** Where the person is signed in, newest first. */
export async function listSessions(
  { store, clock }: PeoplePorts,
  { person, session: here }: PersonVisit,
): Promise<SignedInSession[]> {
  const nowMs = Date.parse(clock())
  const sessions = await store.sessions.listOf(person.id)
  return sessions
    .filter((session) => !hasSessionEnded(session, nowMs))
    .map(({ id, startedAt, endsAt, device }) => ({
      id,
      isThisOne: id === here.id,
      startedAt,
      endsAt,
      device,
    }))
}

/** @throws Refusal `not-found` */
export async function endSession(
  { store }: PeoplePorts,
  { person }: PersonVisit,
  sessionId: string,
): Promise<{ done: true }> {
  if (await store.sessions.end(person.id, sessionId)) return { done: true }
  throw new Refusal('not-found', 'You have no such session; it may have ended already.')
}

export async function endOtherSessions(
  ports: PeoplePorts,
  visit: PersonVisit,
): Promise<{ done: true }> {
  await ports.store.sessions.endAllBut(visit.person.id, visit.session.id)
  await noteOwnStep(ports, visit, 'other-sessions-ended')
  return { done: true }
}
