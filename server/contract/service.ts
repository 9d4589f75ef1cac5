import { z } from 'zod'

export const Health = z.object({ status: z.literal('ok'), feeders: z.number().int().min(0) })

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

export type Health = z.infer<typeof Health>
export type Settings = z.infer<typeof Settings>
