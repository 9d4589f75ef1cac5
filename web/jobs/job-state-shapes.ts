import type { JobState } from '#domain/jobs/job-state.ts'

export interface JobStateShape {
  /** Closed outline, or an open line. */
  readonly outline: string
  /** What of it is filled; empty for a hollow shape. */
  readonly fill: string
  /** Drawn over the fill. */
  readonly inside?: string
  /** Whose step comes next: it takes the colour that asks for a decision, that of trouble, or none. */
  readonly asks: 'supervisor' | 'crew' | 'trouble' | 'nobody'
}

const DIAMOND = 'M12 2 22 12 12 22 2 12Z'
const SIX_SIDED = 'M6.5 3.5H17.5L22.5 12 17.5 20.5H6.5L1.5 12Z'

/**
 * Shapes of the states on a grid of 24, the same in lists and on the map: a diamond fills on the
 * way out, six sides stand for the field, and an arrow goes back.
 */
export const JOB_STATE_SHAPES: Readonly<Record<JobState, JobStateShape>> = {
  drafted: { outline: DIAMOND, fill: '', asks: 'supervisor' },
  approved: { outline: DIAMOND, fill: 'M12 2V22L2 12Z', asks: 'supervisor' },
  issued: { outline: DIAMOND, fill: DIAMOND, asks: 'crew' },
  'in the field': { outline: SIX_SIDED, fill: SIX_SIDED, asks: 'crew' },
  'work done': {
    outline: SIX_SIDED,
    fill: '',
    inside: 'M7 12.5 10.5 16 17 8.5',
    asks: 'supervisor',
  },
  closed: { outline: 'M4 12.5 9.5 18 20 6.5', fill: '', asks: 'nobody' },
  returned: { outline: 'M21 5V14H4M10 8 4 14 10 20', fill: '', asks: 'trouble' },
}
