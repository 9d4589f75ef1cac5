import { Layer, Source } from '@vis.gl/react-maplibre'
import { POLE_STATES } from '#domain/avian/assessment/pole-assessment.ts'
import { MAP_FONT } from '../../map/blank-style.ts'
import type { MapColours } from '../../map/map-colours.ts'
import { SLOTS } from '../../map/slots.ts'
import type { Theme } from '../../state/theme.ts'
import { type SymbolName, symbolOfState } from './map-symbols.ts'
import { symbolId } from './use-symbol-images.ts'

interface MarksProps {
  readonly data: GeoJSON.FeatureCollection
  readonly theme: Theme
}

interface LabelledProps extends MarksProps {
  readonly colours: MapColours
}

/** Style expression that picks a symbol by a property's value, the last one where none fits. */
function pick(
  property: string,
  cases: readonly (readonly [string, SymbolName])[],
  other: SymbolName,
  theme: Theme,
) {
  return [
    'match',
    ['get', property],
    ...cases.flatMap(([value, name]) => [value, symbolId(name, theme)]),
    symbolId(other, theme),
  ] as unknown as string
}

const BY_STATE = POLE_STATES.map((state) => [state, symbolOfState(state)] as const)

export function PoleMarks({ data, theme }: MarksProps) {
  return (
    <Source id="bird-poles" type="geojson" data={data}>
      <Layer
        id="bird-poles"
        type="symbol"
        beforeId={SLOTS.marks}
        layout={{
          'icon-image': pick('state', BY_STATE, 'pole-unknown', theme),
          'icon-size': ['interpolate', ['linear'], ['zoom'], 10, 0.2, 13, 0.45, 16, 0.9],
          'icon-allow-overlap': true,
          'symbol-sort-key': [
            'match',
            ['get', 'state'],
            'failed',
            4,
            'open',
            3,
            'partly done',
            2,
            'unknown',
            1,
            0,
          ],
        }}
      />
    </Source>
  )
}

export function ItemMarks({ data, theme }: MarksProps) {
  const icon = pick(
    'state',
    [
      ['planned', 'item-planned'],
      ['on', 'item-on'],
      ['failed', 'item-failed'],
    ],
    'item-removed',
    theme,
  )
  return (
    <Source id="bird-items" type="geojson" data={data}>
      <Layer
        id="bird-items"
        type="symbol"
        beforeId={SLOTS.marks}
        minzoom={ITEMS_FROM_ZOOM}
        layout={{
          'icon-image': icon,
          'icon-size': ['interpolate', ['linear'], ['zoom'], 12, 0.35, 16, 0.75],
          'icon-offset': ['get', 'offset'],
          'icon-allow-overlap': true,
        }}
      />
    </Source>
  )
}

export const ITEMS_FROM_ZOOM = 12

export function FindMarks({ data, theme, colours }: LabelledProps) {
  const icon = pick(
    'cause',
    [
      ['confirmed electrocution', 'incident-electrocution'],
      ['probable electrocution', 'incident-electrocution'],
    ],
    'incident-other',
    theme,
  )
  return <LabelledSymbols id="bird-incidents" data={data} icon={icon} colours={colours} />
}

export function NestMarks({ data, theme, colours }: LabelledProps) {
  const icon = pick('status', [['in use', 'nest-in-use']], 'nest-not-in-use', theme)
  return <LabelledSymbols id="bird-nests" data={data} icon={icon} colours={colours} />
}

interface SymbolsProps {
  readonly id: string
  readonly data: GeoJSON.FeatureCollection
  readonly icon: string
  readonly colours: MapColours
}

/** Marks that stay on top; their words give way where there is no room. */
function LabelledSymbols({ id, data, icon, colours }: SymbolsProps) {
  return (
    <Source id={id} type="geojson" data={data}>
      <Layer
        id={id}
        type="symbol"
        beforeId={SLOTS.labels}
        layout={{
          'icon-image': icon,
          'icon-size': ['interpolate', ['linear'], ['zoom'], 10, 0.6, 15, 1],
          'icon-allow-overlap': true,
          'text-field': ['step', ['zoom'], '', 13, ['get', 'label']],
          'text-font': MAP_FONT,
          'text-size': 12,
          'text-offset': [0, 1.1],
          'text-anchor': 'top',
          'text-optional': true,
        }}
        paint={{
          'text-color': colours.ink,
          'text-halo-color': colours.paper,
          'text-halo-width': 1.5,
        }}
      />
    </Source>
  )
}
