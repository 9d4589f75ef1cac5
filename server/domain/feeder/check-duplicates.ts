import type { Feeder } from './feeder.ts'
import type { Finding, LayerName } from './finding.ts'

/** Ids that stand twice in one layer, and line types and cases that stand twice in feeder.json. */
export function checkDuplicates(feeder: Feeder): Finding[] {
  const layers: readonly (readonly [LayerName, readonly { id: string }[]])[] = [
    ['poles', feeder.poles],
    ['spans', feeder.spans],
    ['equipment', feeder.equipment],
    ['loads', feeder.loads],
    ['nests', feeder.nests],
    ['habitat', feeder.habitat],
    ['incidents', feeder.incidents],
    ['covers', feeder.protections],
    ['access', feeder.access],
    ['keepout', feeder.keepOuts],
  ]
  return [
    ...layers.flatMap(([layer, items]) =>
      repeated(items).map((id) => duplicate(layer, id, `The id "${id}"`)),
    ),
    ...repeated(feeder.header.lineTypes).map((id) =>
      duplicate('feeder', feeder.header.id, `The line type "${id}"`),
    ),
    ...repeated(feeder.header.cases).map((id) =>
      duplicate('feeder', feeder.header.id, `The case "${id}"`),
    ),
  ]
}

function repeated(items: readonly { id: string }[]): string[] {
  const seen = new Set<string>()
  const twice = new Set<string>()
  for (const { id } of items) (seen.has(id) ? twice : seen).add(id)
  return [...twice]
}

function duplicate(layer: LayerName, featureId: string, subject: string): Finding {
  return {
    severity: 'error',
    code: 'duplicate-id',
    layer,
    featureId,
    place: null,
    what: `${subject} stands more than once.`,
    remedy: 'Give each its own id.',
  }
}
