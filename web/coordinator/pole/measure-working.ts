import type { MeasureFacts, MeasureSet } from '#domain/avian/measures/measure.ts'
import { usd } from '../../state/format.ts'
import type { Working } from '../../state/working.ts'

/** How the cost of a set came about. */
export function setCostWorking(
  { uses, costUsd }: MeasureSet,
  catalogue: readonly MeasureFacts[],
): Working {
  const kinds = [...new Set(uses.map(({ kind }) => kind))]
  const facts = kinds.flatMap((kind) => catalogue.filter((entry) => entry.kind === kind))
  return {
    title: 'Cost of these measures on the pole',
    result: usd(costUsd),
    formula: [
      'Sum of the cost of each kind of measure, once for the pole however many parts get it.',
      'Without the way to the pole, which poles near each other share.',
    ],
    inputs: facts.map(({ kind, costUsd: each, sureness }) => ({
      name: kind,
      value: `${usd(each)} (${sureness})`,
    })),
    source: [...new Set(facts.map(({ kind, source }) => `${kind}: ${source}`))].join(' '),
    sureness: 'assumption',
    changeAt: 'the measures in the settings of the bird desk',
  }
}
