import { EntriesSent } from '#contract/jobs.ts'
import { ProblemError } from '#contract/read-answer.ts'

/** What became of an item that was sent. */
export type Outcome =
  | { readonly state: 'kept'; readonly answer: unknown }
  | { readonly state: 'conflict'; readonly problem: string; readonly current: unknown }
  | { readonly state: 'refused'; readonly problem: string; readonly answer?: unknown }
  | { readonly state: 'waiting'; readonly problem: string; readonly isSignInNeeded?: true }

const NO_ANSWER = 'The server has not answered yet. It is sent again by itself.'
const SIGN_IN = 'Sign in again; then it is sent by itself.'
const TOO_MANY = 429

/** Of entries the server says one by one what became of them; a refused one is not part of the record. */
export function outcomeOfAnswer(name: string, answer: unknown): Outcome {
  if (name !== 'sendEntries') return { state: 'kept', answer }
  const outcomes = EntriesSent.safeParse(answer).data?.outcomes ?? []
  const why = outcomes.flatMap((one) => (one.outcome === 'refused' ? [one.why] : []))
  return why.length > 0
    ? { state: 'refused', problem: why.join(' '), answer }
    : { state: 'kept', answer }
}

export function outcomeOfError(error: unknown): Outcome {
  if (!(error instanceof ProblemError)) return { state: 'waiting', problem: NO_ANSWER }
  const { code, status, detail, current } = error.problem
  if (code === 'sign-in-needed') return { state: 'waiting', problem: SIGN_IN, isSignInNeeded: true }
  if (code === 'stale-version') return { state: 'conflict', problem: detail, current }
  if (status >= 500 || status === TOO_MANY) return { state: 'waiting', problem: detail }
  const faults = error.problem.faults ?? []
  const where = faults.map(({ at, what }) => `${at} ${what}.`)
  return { state: 'refused', problem: [detail, ...where].join(' ') }
}
