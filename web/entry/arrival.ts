import type { Me } from '#contract/account.ts'

/** Properties of every way in. */
export interface Arrival {
  /** Called once the person is known, before the page goes on as them. */
  readonly onEntered?: (me: Me) => void
}
