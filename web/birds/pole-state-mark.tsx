import type { PoleState } from '#domain/avian/assessment/pole-assessment.ts'
import { POLE_STATE_SHAPES } from './pole-state-shapes.ts'

/** What each state means, in a few words. */
export const POLE_STATE_WORDS: Readonly<Record<PoleState, string>> = {
  separated: 'separated as framed',
  covered: 'covered',
  'partly done': 'partly done',
  open: 'open',
  failed: 'failed',
  unknown: 'not known',
}

/** State of a pole as a shape and a word, never as a colour alone. */
export function PoleStateMark({ state }: { readonly state: PoleState }) {
  const { outline, fill } = POLE_STATE_SHAPES[state]
  return (
    <span className={`pole-state pole-state-${state.replace(' ', '-')}`}>
      <svg viewBox="0 0 24 24" width="18" height="18" aria-hidden="true">
        {fill && <path className="pole-state-filled" d={fill} />}
        <path d={outline} />
      </svg>
      {POLE_STATE_WORDS[state]}
    </span>
  )
}
