import type { ProtectionBody } from '#contract/protections.ts'
import { KIND_OF_ITEM } from '#domain/avian/measures/item-kind.ts'
import type { MeasureFacts, MeasureUse } from '#domain/avian/measures/measure.ts'
import type { Part } from '#domain/avian/pole-top/part.ts'
import { measureInWords } from '../../birds/measure-words.ts'

interface Choice {
  readonly pole: string
  readonly parts: readonly Part[]
  readonly catalogue: readonly MeasureFacts[]
  readonly state: 'planned' | 'on'
  /** ISO date of the state. */
  readonly on: string
}

/** One item of the record for each measure, with the catalogue's cost as a first figure. */
export function itemsOfMeasures(
  uses: readonly MeasureUse[],
  { pole, parts, catalogue, state, on }: Choice,
): ProtectionBody[] {
  return uses.map((use) => {
    const facts = catalogue.find(({ kind }) => kind === use.kind)
    return {
      pole,
      kind: KIND_OF_ITEM[use.kind],
      what: measureInWords(use, parts, 'us'),
      state,
      on,
      measure: use.kind,
      ...(use.partIds.length > 0 && { partIds: [...use.partIds] }),
      ...(use.dimensionM !== undefined && { dimensionM: use.dimensionM }),
      ...(facts && { costUsd: facts.costUsd }),
    }
  })
}
