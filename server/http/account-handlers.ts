import type { Context } from 'hono'
import { enterDemo } from '../people/demo.ts'
import { meOf } from '../people/me.ts'
import type { People } from '../people/people.ts'
import { signOut } from '../people/sign-out.ts'
import { answerOf, askingOf } from './asking-of.ts'
import { visitOf } from './gate.ts'
import type { Handlers } from './handlers.ts'

type AccountRoutes = 'getMe' | 'enterDemo' | 'signOut'

export function accountHandlers({ ports, origin }: People): Pick<Handlers, AccountRoutes> {
  const asking = (context: Context) => askingOf(context, origin)
  return {
    getMe: (_input, _asker, context) => meOf(ports, visitOf(context)),
    enterDemo: async ({ body }, _, context) =>
      answerOf(context, await enterDemo(ports, body.role, asking(context))),
    signOut: async (_input, _asker, context) =>
      answerOf(context, await signOut(ports, asking(context))),
  }
}
