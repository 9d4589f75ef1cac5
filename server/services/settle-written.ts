import type { Written } from './ports.ts'
import { Refusal } from './refusal.ts'

/** What to tell a person about each way that a change can go wrong. */
interface Words {
  readonly missing: string
  readonly wrongState: string
}

/**
 * The record as written.
 *
 * @throws Refusal `not-found`, `stale-version` or `wrong-state`, the latter two with the record as it stands.
 */
export function settleWritten<Kept>(written: Written<Kept>, words: Words): Kept {
  switch (written.status) {
    case 'written':
      return written.record
    case 'missing':
      throw new Refusal('not-found', words.missing)
    case 'stale':
      throw new Refusal(
        'stale-version',
        'Somebody changed this since you opened it. Look at what stands now, then change it again.',
        { current: written.current },
      )
    case 'wrong-state':
      throw new Refusal('wrong-state', words.wrongState, { current: written.current })
  }
}
