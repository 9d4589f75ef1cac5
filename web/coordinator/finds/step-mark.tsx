import type { StepState } from '#domain/avian/account/follow-up.ts'

const SHAPES: Readonly<Record<StepState, string>> = {
  kept: 'M4 12 10 18 20 6',
  late: 'M4 12 10 18 20 6M4 21H20',
  overdue: 'M12 4V14M12 18V20',
  waiting: 'M12 4A8 8 0 1 0 12 20A8 8 0 1 0 12 4M12 8V12L15 15',
}

/** State of a step as a shape; the words stand beside it. */
export function StepMark({ state }: { readonly state: StepState }) {
  return (
    <svg className={`step-mark step-${state}`} viewBox="0 0 24 24" aria-hidden="true">
      <path d={SHAPES[state]} />
    </svg>
  )
}
