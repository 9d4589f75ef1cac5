import { JobEntry } from '#domain/jobs/job-entry.ts'
import { shortText } from './short-text.ts'

/** What a step of a job says, by its pole and id; undefined for one that the job does not hold. */
export type StepText = (pole: string, stepId: string) => string | undefined

/** One line of what was done at a pole: the kind of entry, the pole and unit, and the step by its words. */
export function fieldEntryInWords(value: unknown, stepText?: StepText): string {
  const { data: entry } = JobEntry.safeParse(value)
  if (!entry) return 'Entered something in the field that cannot be read any more.'
  const { pole } = entry
  const unit = 'phase' in entry && entry.phase ? `, unit ${entry.phase}` : ''
  const place = `pole ${pole}${unit}`
  const step = (id: string) => {
    const text = stepText?.(pole, id)
    return text === undefined ? `step “${id}”` : `“${shortText(text)}”`
  }
  switch (entry.kind) {
    case 'step done':
      return `Step done at ${place}: ${step(entry.stepId)}${entry.remark ? `, with the remark: ${entry.remark}` : ''}`
    case 'step left out':
      return `Step left out at ${place}: ${step(entry.stepId)}, because: ${entry.why}`
    case 'deviation':
      return `Done otherwise than planned at ${place}: ${entry.text}`
    case 'remark':
      return `Remark at ${place}: ${entry.text}`
    case 'photo':
      return `Photo at ${place}${entry.what && `: ${entry.what}`}`
  }
}
