import type { Protection } from '#domain/feeder/birds.ts'

type State = Protection['state']

/** Words that do not mistake the state "removed" for a deleted entry. */
export const STATE_WORDS: Readonly<Record<State, string>> = {
  planned: 'planned',
  on: 'on the pole',
  failed: 'failed',
  removed: 'taken off the pole',
}

const SHAPES: Readonly<Record<State, string>> = {
  planned: 'M5 5H19V19H5Z',
  on: 'M4 12 10 18 20 6',
  failed: 'M5 5 19 19M19 5 5 19',
  removed: 'M5 12H19',
}

/** State as a shape and a word, never as a colour alone. */
export function StateMark({ state }: { readonly state: State }) {
  return (
    <span className={`item-state item-state-${state}`}>
      <svg viewBox="0 0 24 24" width="16" height="16" aria-hidden="true">
        <path d={SHAPES[state]} />
      </svg>
      {STATE_WORDS[state]}
    </span>
  )
}
