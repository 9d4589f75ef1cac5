import { bankInWords } from '#domain/feeder/bank-in-words.ts'
import { setsUnits } from '#domain/jobs/is-bank-kind.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { counted } from '../../state/format.ts'

/** A label to be printed; its code leads to the pole. */
export interface JobLabel {
  readonly of: 'pole' | 'bank'
  readonly pole: string
  readonly title: string
  readonly detail?: string
}

/**
 * The labels that the kit of a job asks for: one for each pole, and one for a bank whose units are new.
 *
 * @param order poles of the job as they are printed
 */
export function jobLabels({ bank, kind }: JobPlan, order: readonly string[]): JobLabel[] {
  const poles = order.map((pole): JobLabel => ({ of: 'pole', pole, title: pole }))
  if (!bank || !setsUnits(kind)) return poles
  const { regulator } = bank
  const detail = `Phases ${[...regulator.phases].join(', ')}`
  return [...poles, { of: 'bank', pole: regulator.pole, title: bankInWords(regulator), detail }]
}

/** "Labels for 4 poles and the bank". */
export function labelsInWords(labels: readonly JobLabel[]): string {
  const poles = labels.filter((label) => label.of === 'pole').length
  const ofPoles = poles === 1 ? 'one pole' : counted(poles, 'pole')
  return `Labels for ${ofPoles}${poles < labels.length ? ' and the bank' : ''}`
}
