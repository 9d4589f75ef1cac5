import { z } from 'zod'

/** That requests may be sent here. */
export const Ready = z.object({ status: z.literal('ready') })

/** That the process answers at all. */
export const Live = z.object({ status: z.literal('live') })

/** What the screens need to know before they draw. */
export const Settings = z.object({
  /** Style of a base map that the utility serves itself; null for the built-in land. */
  mapStyleUrl: z.url().nullable(),
  /** The demo can be entered without a password. */
  isDemo: z.boolean(),
  /** Name of the utility's own sign-on, where there is one. */
  ownSignOn: z.string().nullable(),
  hasPasskeys: z.boolean(),
  /** No administrator yet: the first one is made on the server. */
  needsAdministrator: z.boolean(),
})

export type Live = z.infer<typeof Live>
export type Ready = z.infer<typeof Ready>
export type Settings = z.infer<typeof Settings>
