import type { JobOrigin, JobSummary } from '#contract/jobs.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import type { StepsCount } from '#domain/jobs/job-run.ts'
import type { JobMove, JobState } from '#domain/jobs/job-state.ts'
import { counted, listed } from '../state/format.ts'

/** What a crew is sent out for, as it begins a line. */
export const KIND_WORDS: Readonly<Record<JobKind, string>> = {
  'set a bank': 'Set a regulator bank',
  'change out a bank': 'Change out a regulator bank',
  'remove a bank': 'Remove a regulator bank',
  'take a bank out of service': 'Take a regulator bank out of service',
  'return a bank to service': 'Return a regulator bank to service',
  'change settings': 'Change the settings of a bank',
  'retrofit round': 'Retrofit round for birds',
  inspection: 'Inspection',
}

export const STATE_WORDS: Readonly<Record<JobState, string>> = {
  drafted: 'Drafted',
  approved: 'Approved',
  issued: 'Issued',
  'in the field': 'In the field',
  'work done': 'Work done',
  closed: 'Closed',
  returned: 'Returned',
}

/** Who has the next step, and which it is. */
export const WAITS_FOR: Readonly<Record<JobState, string>> = {
  drafted: 'Waits for the supervisor to approve it.',
  approved: 'Waits for the supervisor to issue it to the crew.',
  issued: 'Waits for the crew to begin.',
  'in the field': 'The crew is at work.',
  'work done': 'Waits for the supervisor to look at what was left and to close it.',
  closed: 'What was left stands in the record of the feeder.',
  returned: 'Waits for whoever drafted it to mend it, or for the crew to go on.',
}

export interface MoveWords {
  /** On the button. */
  readonly button: string
  /** What it does, as a sentence. */
  readonly means: string
}

/** What a move does. */
export function moveInWords({ from, to }: Pick<JobMove, 'from' | 'to'>): MoveWords {
  return from === 'returned' && to === 'in the field' ? FIELD_AGAIN : MOVE_WORDS[to]
}

const FIELD_AGAIN: MoveWords = {
  button: 'Send back to the field',
  means: 'The crew goes on where it stopped, and reads the reason.',
}

const MOVE_WORDS: Readonly<Record<JobState, MoveWords>> = {
  drafted: {
    button: 'Take back as a draft',
    means: 'It can be changed, and is approved and issued anew. Its plan stays as it is.',
  },
  approved: {
    button: 'Approve',
    means: 'The plan is right: poles, kit, settings and steps.',
  },
  issued: {
    button: 'Issue to the crew',
    means: 'It appears in the crew’s list, and can be taken offline and begun.',
  },
  'in the field': { button: 'Begin in the field', means: 'The crew is at the first pole.' },
  'work done': {
    button: 'Say that the work is done',
    means: 'Taken once every step is passed, or left out with its reason.',
  },
  closed: {
    button: 'Close the job',
    means:
      'Writes a new version of the feeder with what the crew left, and what was installed into the bird record. A closed job stands as it is.',
  },
  returned: {
    button: 'Return with a reason',
    means: 'It stops here. Whoever drafted it and the crew read the reason.',
  },
}

/** Its field work is still to be done or mended. */
export function isAhead(state: JobState): boolean {
  return state !== 'work done' && state !== 'closed'
}

export function isOpen(state: JobState): boolean {
  return state !== 'closed'
}

const DAY_MS = 86_400_000

/** Days from one calendar date to another; negative where it lies before. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(to) - Date.parse(from)) / DAY_MS)
}

type Due = Pick<JobSummary, 'dueOn' | 'state'>

/** @param today calendar date, as 2026-11-25 */
export function isLate({ dueOn, state }: Due, today: string): boolean {
  return dueOn !== undefined && isAhead(state) && dueOn < today
}

/** "due in 3 days", "due today", "4 days late"; the date alone once its work is done. */
export function dueInWords({ dueOn, state }: Due, today: string): string {
  if (dueOn === undefined) return 'no due date'
  if (!isAhead(state)) return dueOn < today ? `was due ${dueOn}` : `due ${dueOn}`
  const days = daysBetween(today, dueOn)
  if (days < 0) return `${counted(-days, 'day')} late`
  if (days === 0) return 'due today'
  return days === 1 ? 'due tomorrow' : `due in ${days} days`
}

/** "120 of 121 steps done, 1 left out"; a step that is left out was passed, but not done. */
export function stepsInWords({ done, leftOut, all }: StepsCount): string {
  const words = `${done - leftOut} of ${counted(all, 'step')} done`
  return leftOut > 0 ? `${words}, ${leftOut} left out` : words
}

/** How far a job in a list is. */
export function progressInWords({
  stepsDone,
  stepsLeftOut = 0,
  stepsAll,
}: Pick<JobSummary, 'stepsDone' | 'stepsLeftOut' | 'stepsAll'>): string {
  return stepsInWords({ done: stepsDone, leftOut: stepsLeftOut, all: stepsAll })
}

/** "pole W-742", "poles 1, 2, 3 and 4 more". */
export function polesInWords(poles: readonly string[]): string {
  if (poles.length === 1) return `pole ${poles[0]}`
  if (poles.length <= MOST_NAMED) return `poles ${listed(poles)}`
  return `poles ${poles.slice(0, MOST_NAMED - 1).join(', ')} and ${poles.length - MOST_NAMED + 1} more`
}

const MOST_NAMED = 4

/** Where a job comes from. */
export function originInWords(origin: JobOrigin): string {
  switch (origin.kind) {
    case 'proposal':
      return 'from a kept proposal'
    case 'programme':
      return `round ${origin.round + 1} of a bird programme`
    case 'by hand':
      return 'drafted by hand'
  }
}

/** As it begins a sentence. */
export function capitalised(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1)
}
