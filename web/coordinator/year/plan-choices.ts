import { ProgrammeRequest } from '#domain/avian/programme/programme.ts'
import { keptDrafts } from '../../record/kept-drafts.ts'

/** What a person sets for a plan; which poles wait for a job comes from the record. */
export const PlanChoices = ProgrammeRequest.omit({ waitingForJob: true })
export type PlanChoices = Omit<ProgrammeRequest, 'waitingForJob'>

const FIRST_BUDGET_USD = 20_000

/** A year from today, with the shipped assumptions. */
export function newChoices(today: string): PlanChoices {
  const nextYear = `${Number(today.slice(0, 4)) + 1}${today.slice(4)}`.replace('-02-29', '-02-28')
  return PlanChoices.parse({ budgetUsd: FIRST_BUDGET_USD, from: today, to: nextYear })
}

/** By feeder, so that neither another tab nor a reload forgets what was set. */
export const planChoices = keptDrafts('crossarm.plan-choices', PlanChoices)
