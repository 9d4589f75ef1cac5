import { JOB_KINDS } from '#domain/jobs/job-kind.ts'
import type { Fields } from '../../record/merge-fields.ts'
import type { RecordField } from '../../record/record-fields.ts'
import { shortText } from '../../record/short-text.ts'
import { stepInWords } from '../../record/step-in-words.ts'
import { listed } from '../../state/format.ts'
import { BANK_STANDS, type OrderBody, type StepDraft, stepOfDraft } from './order-draft.ts'

const STEP = 'step '

/** An order as fields, so that two versions can be held against each other step by step. */
export function fieldsOfOrder({ name, source, forKinds, bankAtStart, steps }: OrderBody): Fields {
  return {
    name,
    source,
    forKinds: forKinds.join('\n'),
    bankAtStart: bankAtStart ?? '',
    order: steps.map(({ id }) => id).join('\n'),
    ...Object.fromEntries(steps.map((step) => [STEP + step.id, JSON.stringify(step)])),
  }
}

/** Fields of all steps that any of the versions holds. */
export function orderRecordFields(versions: readonly OrderBody[]): RecordField[] {
  const steps = new Map(versions.flatMap((body) => body.steps.map((step) => [step.id, step])))
  return [
    { key: 'name', label: 'Name' },
    { key: 'source', label: 'Where it comes from' },
    { key: 'forKinds', label: 'For', inWords: (value) => listed(String(value).split('\n')) },
    { key: 'bankAtStart', label: 'How the bank stands at the start' },
    {
      key: 'order',
      label: 'Order of the steps',
      inWords: (value) =>
        String(value)
          .split('\n')
          .map((id, index) => `${index + 1}. ${shortOf(steps.get(id), id)}`)
          .join('\n'),
    },
    ...[...steps].map(([id, step]) => ({
      key: STEP + id,
      label: `Step “${shortOf(step, id)}”`,
      inWords: (value: unknown) => {
        const draft = draftOf(value)
        return draft ? stepInWords(stepOfDraft(draft)) || draft.text : ''
      },
    })),
  ]
}

function shortOf(step: StepDraft | undefined, id: string): string {
  return shortText(step?.text.trim() || id)
}

/**
 * The order that was chosen field by field. A step that is chosen but stands in the chosen order
 * nowhere comes last; one that stands there but was chosen away is left out.
 */
export function orderOfFields(id: string, fields: Fields): OrderBody {
  const kept = new Map(
    Object.entries(fields).flatMap(([key, value]) => {
      const step = key.startsWith(STEP) ? draftOf(value) : null
      return step ? [[step.id, step] as const] : []
    }),
  )
  const order = [...new Set([...(fields.order ?? '').split('\n'), ...kept.keys()])]
  return {
    id,
    name: fields.name ?? '',
    source: fields.source ?? '',
    forKinds: JOB_KINDS.filter((kind) => (fields.forKinds ?? '').split('\n').includes(kind)),
    bankAtStart: BANK_STANDS.find((stands) => stands === fields.bankAtStart) ?? null,
    steps: order.flatMap((stepId) => kept.get(stepId) ?? []),
  }
}

/** Written by `fieldsOfOrder` alone; empty where that version has no such step. */
function draftOf(value: unknown): StepDraft | null {
  if (typeof value !== 'string' || value === '') return null
  return JSON.parse(value) as StepDraft
}
