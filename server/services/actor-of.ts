import type { Actor } from '#contract/actor.ts'
import type { Asker } from '#contract/rights.ts'

/** What of an asker goes into the record: not what their token is limited to. */
export function actorOf({ id, role }: Asker): Actor {
  return { id, role }
}
