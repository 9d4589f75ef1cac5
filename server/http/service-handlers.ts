import type { Settings } from '#contract/service.ts'
import { Refusal } from '../services/refusal.ts'
import type { Handlers } from './handlers.ts'
import type { Measures } from './measures.ts'

type ServiceRoutes = 'getLive' | 'getReady' | 'getMeasures' | 'getSettings' | 'getOpenapi'

/** The process and what it stands on. */
export interface Readiness {
  /** Aborted as soon as a stop is under way. */
  readonly stopping: AbortSignal
  /** Rejects where the database does not answer. */
  askDatabase(): Promise<unknown>
}

/** Whoever asks whether the server is ready wants to know soon. */
const READY_WITHIN_MS = 3000

export interface ServiceParts {
  readonly readiness: Readiness
  readonly measures: Measures
  readonly settings: () => Promise<Settings>
  /** Gives the OpenAPI document, which is there once all routes are. */
  readonly describe: () => Record<string, unknown>
}

export function serviceHandlers(parts: ServiceParts): Pick<Handlers, ServiceRoutes> {
  return {
    getLive: async () => ({ status: 'live' }),
    getReady: async () => {
      await refuseUnready(parts.readiness)
      return { status: 'ready' }
    },
    getMeasures: () => parts.measures.read(),
    getSettings: () => parts.settings(),
    getOpenapi: async () => parts.describe(),
  }
}

/** @throws Refusal `unavailable` */
async function refuseUnready({ stopping, askDatabase }: Readiness): Promise<void> {
  if (stopping.aborted) throw new Refusal('unavailable', 'The server is stopping. Ask another.')
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<false>((resolve) => {
    timer = setTimeout(resolve, READY_WITHIN_MS, false)
  })
  const asked = askDatabase().then(
    () => true,
    () => false,
  )
  const answers = await Promise.race([asked, late])
  clearTimeout(timer)
  if (!answers) throw new Refusal('unavailable', 'The database does not answer. Try again later.')
}
