import type { Context } from 'hono'
import { enterDemo } from '../people/demo.ts'
import { acceptInvitation, readInvitation } from '../people/invitations.ts'
import { meOf } from '../people/me.ts'
import { changePassword } from '../people/password.ts'
import type { People } from '../people/people.ts'
import {
  confirmSecondFactor,
  giveSecondFactor,
  removeSecondFactor,
  startSecondFactor,
} from '../people/second-factor.ts'
import { endOtherSessions, endSession, listSessions } from '../people/sessions.ts'
import { signIn } from '../people/sign-in.ts'
import { signOut } from '../people/sign-out.ts'
import { answerOf, askingOf } from './asking-of.ts'
import { ownVisit, visitOf } from './gate.ts'
import type { Handlers } from './handlers.ts'

type EnteringRoutes =
  | 'enterDemo'
  | 'signIn'
  | 'giveSecondFactor'
  | 'signOut'
  | 'getInvitation'
  | 'acceptInvitation'

type OwnRoutes =
  | 'getMe'
  | 'listSessions'
  | 'endSession'
  | 'endOtherSessions'
  | 'changePassword'
  | 'startSecondFactor'
  | 'confirmSecondFactor'
  | 'removeSecondFactor'

export function accountHandlers(people: People): Pick<Handlers, EnteringRoutes | OwnRoutes> {
  return { ...enteringHandlers(people), ...ownHandlers(people) }
}

function enteringHandlers({ ports, origin }: People): Pick<Handlers, EnteringRoutes> {
  const asking = (context: Context) => askingOf(context, origin)
  return {
    enterDemo: async ({ body }, _, context) =>
      answerOf(context, await enterDemo(ports, body.role, asking(context))),
    signIn: async ({ body }, _, context) =>
      answerOf(context, await signIn(ports, body, asking(context))),
    giveSecondFactor: async ({ body }, _, context) =>
      answerOf(context, await giveSecondFactor(ports, body.code, asking(context))),
    signOut: async (_input, _asker, context) =>
      answerOf(context, await signOut(ports, asking(context))),
    getInvitation: ({ body }, _, context) => readInvitation(ports, body.token, asking(context)),
    acceptInvitation: async ({ body }, _, context) =>
      answerOf(context, await acceptInvitation(ports, body, asking(context))),
  }
}

function ownHandlers({ ports, origin }: People): Pick<Handlers, OwnRoutes> {
  const asking = (context: Context) => askingOf(context, origin)
  return {
    getMe: (_input, _asker, context) => meOf(ports, visitOf(context)),
    listSessions: (_input, _asker, context) => listSessions(ports, ownVisit(context)),
    endSession: ({ params }, _, context) => endSession(ports, ownVisit(context), params.sessionId),
    endOtherSessions: (_input, _asker, context) => endOtherSessions(ports, ownVisit(context)),
    changePassword: async ({ body }, _, context) =>
      answerOf(context, await changePassword(ports, ownVisit(context), body, asking(context))),
    startSecondFactor: ({ body }, _, context) =>
      startSecondFactor(ports, ownVisit(context), body.password, asking(context)),
    confirmSecondFactor: async ({ body }, _, context) =>
      answerOf(
        context,
        await confirmSecondFactor(ports, ownVisit(context), body.code, asking(context)),
      ),
    removeSecondFactor: async ({ body }, _, context) =>
      answerOf(
        context,
        await removeSecondFactor(ports, ownVisit(context), body.password, asking(context)),
      ),
  }
}
