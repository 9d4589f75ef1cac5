import { Layer, Source } from '@vis.gl/react-maplibre'
import type { ExpressionSpecification } from 'maplibre-gl'
import { useMemo } from 'react'
import { useFeeder } from '../../state/feeder.tsx'
import { useMapColours } from '../map-colours.ts'
import { SLOTS } from '../slots.ts'
import type { VoltageClass } from '../voltage-scale.ts'
import { spanFeatures } from './feeder-features.ts'

/** Current in amperes and weight of the line in pixels; straight between. */
export const WEIGHTS: readonly (readonly [number, number])[] = [
  [0, 1.3],
  [10, 1.9],
  [50, 3.1],
  [200, 5.2],
  [500, 8],
]

const AMPS: ExpressionSpecification = ['coalesce', ['feature-state', 'amps'], 0]
const WEIGHT = [
  'interpolate',
  ['linear'],
  AMPS,
  ...WEIGHTS.flat(),
] as unknown as ExpressionSpecification

function atZooms(part: (factor: number) => ExpressionSpecification): ExpressionSpecification {
  return ['interpolate', ['linear'], ['zoom'], 8, part(0.6), 13, part(1), 17, part(1.5)]
}

const LINE_WIDTH = atZooms((factor) => ['*', factor, WEIGHT])
const CASING_GAP = atZooms((factor) => ['+', 3, ['*', factor, WEIGHT]])

const isSide = (side: 'low' | 'high'): ExpressionSpecification => [
  'case',
  ['==', ['coalesce', ['feature-state', 'side'], 'in'], side],
  1,
  0,
]

function spanColour(scale: readonly VoltageClass[], none: string): ExpressionSpecification {
  const pairs = scale.flatMap(({ colour }, index) => [index, colour])
  return [
    'match',
    ['coalesce', ['feature-state', 'class'], -1],
    ...pairs,
    none,
  ] as unknown as ExpressionSpecification
}

const IS_OPEN: ExpressionSpecification = ['==', ['get', 'isOpen'], true]

/** Spans: colour says voltage, weight says current, a dashed or dotted casing says outside limits. */
export function SpanLayers({ scale }: { readonly scale: readonly VoltageClass[] }) {
  const open = useFeeder()
  const colours = useMapColours()
  const data = useMemo(() => spanFeatures(open), [open])
  const lowInk = scale[1]?.colour ?? colours.ink
  const highInk = scale.at(-2)?.colour ?? colours.ink
  return (
    <Source id="feeder-spans" type="geojson" data={data} promoteId="id" tolerance={0.1}>
      <Layer
        id="feeder-casing-low"
        type="line"
        beforeId={SLOTS.underline}
        paint={{
          'line-color': lowInk,
          'line-opacity': isSide('low'),
          'line-gap-width': CASING_GAP,
          'line-width': 1.4,
          'line-dasharray': [4, 3],
        }}
      />
      <Layer
        id="feeder-casing-high"
        type="line"
        beforeId={SLOTS.underline}
        layout={{ 'line-cap': 'round' }}
        paint={{
          'line-color': highInk,
          'line-opacity': isSide('high'),
          'line-gap-width': CASING_GAP,
          'line-width': 2,
          'line-dasharray': [0.1, 2.2],
        }}
      />
      <Layer
        id="feeder-spans"
        type="line"
        beforeId={SLOTS.line}
        filter={['!', IS_OPEN]}
        layout={{ 'line-cap': 'round', 'line-join': 'round' }}
        paint={{
          'line-color': spanColour(scale, colours.fence),
          'line-width': LINE_WIDTH,
        }}
      />
      <Layer
        id="feeder-open-spans"
        type="line"
        beforeId={SLOTS.line}
        filter={IS_OPEN}
        paint={{ 'line-color': colours.inkSoft, 'line-width': 1.4, 'line-dasharray': [2, 2] }}
      />
    </Source>
  )
}
