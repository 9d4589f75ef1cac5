import { z } from 'zod'

export const Health = z.object({ status: z.literal('ok'), feeders: z.number().int().min(0) })

/** What the screens need to know before they draw. */
export const Settings = z.object({
  /** Style of a base map that the utility serves itself; null for the built-in land. */
  mapStyleUrl: z.url().nullable(),
})

export type Health = z.infer<typeof Health>
export type Settings = z.infer<typeof Settings>
