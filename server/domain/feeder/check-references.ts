import type { Feeder } from './feeder.ts'
import type { Finding, LayerName } from './finding.ts'
import type { Position } from './geometry.ts'

/** Ids that stand in the files, of features that failed their own check too. */
export type DeclaredIds = Partial<Record<LayerName, ReadonlySet<string>>>

interface Reference {
  readonly layer: LayerName
  readonly featureId: string
  readonly place: Position | null
  /** Property as the files spell it. */
  readonly property: string
  readonly target: string | undefined
}

/**
 * References to poles, spans and line types that are not there. `declared` names ids that exist
 * although their features could not be used, so that one broken pole is one finding.
 */
export function checkReferences(feeder: Feeder, declared: DeclaredIds = {}): Finding[] {
  const poles = new Set([...feeder.poles.map(({ id }) => id), ...(declared.poles ?? [])])
  const spans = new Set([...feeder.spans.map(({ id }) => id), ...(declared.spans ?? [])])
  const lineTypes = new Set(feeder.header.lineTypes.map(({ id }) => id))
  return [
    ...dangling(poleReferences(feeder), poles, 'pole', 'poles.geojson'),
    ...dangling(spanReferences(feeder), spans, 'span', 'spans.geojson'),
    ...dangling(lineTypeReferences(feeder), lineTypes, 'line-type', 'line_types of feeder.json'),
  ]
}

function dangling(
  references: readonly Reference[],
  known: ReadonlySet<string>,
  noun: string,
  home: string,
): Finding[] {
  return references.flatMap(({ layer, featureId, place, property, target }) =>
    target === undefined || known.has(target)
      ? []
      : [
          {
            severity: 'error' as const,
            code: `no-such-${noun}`,
            layer,
            featureId,
            place,
            what: `Its property ${property} names "${target}", which is not in ${home}.`,
            remedy: `Add "${target}" to ${home}, or correct ${property}.`,
          },
        ],
  )
}

function poleReferences(feeder: Feeder): Reference[] {
  const source = { layer: 'feeder', featureId: feeder.header.id, place: null } as const
  const onPole = (layer: LayerName, items: readonly { id: string; pole?: string }[]) =>
    items.map(({ id, pole }) => ({
      layer,
      featureId: id,
      place: null,
      property: 'pole',
      target: pole,
    }))
  return [
    { ...source, property: 'source.pole', target: feeder.header.source.pole },
    ...feeder.spans.flatMap(({ id, path, from, to }) => {
      const here = { layer: 'spans' as const, featureId: id, place: path[0] ?? null }
      return [
        { ...here, property: 'from', target: from },
        { ...here, property: 'to', target: to },
      ]
    }),
    ...onPole('equipment', feeder.equipment),
    ...onPole('loads', feeder.loads),
    ...onPole('incidents', feeder.incidents),
    ...onPole('covers', feeder.protections),
  ]
}

function spanReferences(feeder: Feeder): Reference[] {
  const places = new Map(feeder.poles.map(({ id, at }) => [id, at]))
  const series = feeder.equipment.map((item) => ({
    layer: 'equipment' as const,
    featureId: item.id,
    place: places.get(item.pole) ?? null,
    property: 'span',
    target: 'span' in item ? item.span : undefined,
  }))
  const loads = feeder.loads.map(({ id, span }) => ({
    layer: 'loads' as const,
    featureId: id,
    place: null,
    property: 'span',
    target: span,
  }))
  return [...series, ...loads]
}

function lineTypeReferences(feeder: Feeder): Reference[] {
  return feeder.spans.map(({ id, path, lineType }) => ({
    layer: 'spans',
    featureId: id,
    place: path[0] ?? null,
    property: 'line_type',
    target: lineType,
  }))
}
