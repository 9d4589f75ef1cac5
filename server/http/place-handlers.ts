import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'
import { PreparedAnswers } from './prepared-answers.ts'

/** The land comes with the program and only changes with it; another server may bring a new one. */
const LOOK_AGAIN_MS = 60_000

export function placeHandlers(services: Services): Pick<Handlers, 'getLand'> {
  const prepared = new PreparedAnswers()
  return {
    getLand: ({ params }) => {
      const minute = String(Math.floor(Date.now() / LOOK_AGAIN_MS))
      return prepared.give(params.placeId, minute, () => services.getLand(params.placeId))
    },
  }
}
