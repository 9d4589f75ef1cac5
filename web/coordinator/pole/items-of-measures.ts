import type { ProtectionBody } from '#contract/protections.ts'
import type { MeasureFacts, MeasureUse } from '#domain/avian/measures/measure.ts'
import type { Part } from '#domain/avian/pole-top/part.ts'
import type { Protection } from '#domain/feeder/birds.ts'
import type { MeasureKind } from '#domain/feeder/measure-kinds.ts'
import { measureInWords } from '../../birds/measure-words.ts'

type Kind = Protection['kind']

const KIND_OF_MEASURE: Readonly<Record<MeasureKind, Kind>> = {
  'bushing cover': 'cover',
  'cutout cover': 'cover',
  'arrester cap': 'cover',
  'insulated jumper': 'cover',
  'conductor cover': 'cover',
  'dead-end cover': 'cover',
  'ground-wire moulding': 'guard',
  'raised perch': 'perch',
  'perch deterrent': 'guard',
  'longer arm': 'change of the framing',
  'lowered arm': 'change of the framing',
  'pole-top extension': 'change of the framing',
  'suspended insulators': 'change of the framing',
  'nest platform': 'perch',
  'equipment moved to the ground': 'change of the framing',
}

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
      kind: KIND_OF_MEASURE[use.kind],
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
