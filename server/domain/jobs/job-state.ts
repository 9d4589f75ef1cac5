/** States of a job, in the order in which a job goes through them; the last is the way back. */
export const JOB_STATES = [
  'drafted',
  'approved',
  'issued',
  'in the field',
  'work done',
  'closed',
  'returned',
] as const
export type JobState = (typeof JOB_STATES)[number]

export interface JobMove {
  readonly from: JobState
  readonly to: JobState
  /** Whether a reason must be given. */
  readonly needsReason: boolean
}

/** Every move there is. */
export const JOB_MOVES: readonly JobMove[] = [
  { from: 'drafted', to: 'approved', needsReason: false },
  { from: 'approved', to: 'issued', needsReason: false },
  { from: 'issued', to: 'in the field', needsReason: false },
  { from: 'in the field', to: 'work done', needsReason: false },
  { from: 'work done', to: 'closed', needsReason: false },
  { from: 'approved', to: 'returned', needsReason: true },
  { from: 'issued', to: 'returned', needsReason: true },
  { from: 'in the field', to: 'returned', needsReason: true },
  { from: 'work done', to: 'returned', needsReason: true },
  { from: 'returned', to: 'drafted', needsReason: false },
  { from: 'returned', to: 'in the field', needsReason: true },
]

export function moveOf(from: JobState, to: JobState): JobMove | undefined {
  return JOB_MOVES.find((move) => move.from === from && move.to === to)
}
