import { Layer, Source } from '@vis.gl/react-maplibre'
import { useMemo } from 'react'
import { MAP_FONT } from '../map/blank-style.ts'
import { useMapClicks } from '../map/map-clicks.tsx'
import { type MapColours, useMapColours } from '../map/map-colours.ts'
import { SLOTS } from '../map/slots.ts'
import { useFeeder } from '../state/feeder.tsx'
import { hoverPole } from '../state/hover.ts'
import { select } from '../state/selection.ts'
import { type Theme, useTheme } from '../state/theme.ts'
import { BirdAreas } from './bird-areas.tsx'
import { birdLayers } from './bird-layers.ts'
import type { SymbolName } from './map-symbols.ts'
import { useSeasonMonth } from './season-month.ts'
import { useBirdRecord } from './use-bird-record.ts'
import { symbolId, useSymbolImages } from './use-symbol-images.ts'

const CLICKED = ['bird-poles', 'bird-items']

/** Poles by verdict, items by state, nests with their buffers, habitat and finds. */
export function CoordinatorMapLayers() {
  const { feeder } = useFeeder()
  const month = useSeasonMonth()
  const { poles } = useBirdRecord()
  const theme = useTheme()
  const colours = useMapColours()
  const layers = useMemo(() => birdLayers(feeder, poles, month), [feeder, poles, month])
  const isReady = useSymbolImages(theme, colours)
  useMapClicks(
    CLICKED,
    ({ properties }) => select({ pole: String(properties.pole), view: null }),
    (feature) => hoverPole(feature ? String(feature.properties.pole) : null),
  )
  return (
    <>
      <BirdAreas layers={layers} colours={colours} />
      {isReady && (
        <>
          <PoleMarks data={layers.poles} theme={theme} />
          <ItemMarks data={layers.items} theme={theme} />
          <Finds data={layers.incidents} theme={theme} colours={colours} />
          <Nests data={layers.nests} theme={theme} colours={colours} />
        </>
      )}
    </>
  )
}

type Points = GeoJSON.FeatureCollection<GeoJSON.Point>

interface MarksProps {
  readonly data: Points
  readonly theme: Theme
}

interface LabelledProps extends MarksProps {
  readonly colours: MapColours
}

/** Style expression that picks a symbol by a property's value, the last one where none fits. */
function pick(
  property: string,
  cases: readonly [string, SymbolName][],
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

function PoleMarks({ data, theme }: MarksProps) {
  const icon = pick(
    'verdict',
    [
      ['bridgeable', 'bird-bridgeable'],
      ['unknown', 'bird-unknown'],
    ],
    'bird-sufficient',
    theme,
  )
  return (
    <Source id="bird-poles" type="geojson" data={data}>
      <Layer
        id="bird-poles"
        type="symbol"
        beforeId={SLOTS.marks}
        layout={{
          'icon-image': icon,
          'icon-size': ['interpolate', ['linear'], ['zoom'], 10, 0.2, 13, 0.45, 16, 0.9],
          'icon-allow-overlap': true,
          'symbol-sort-key': ['match', ['get', 'verdict'], 'bridgeable', 2, 'unknown', 1, 0],
        }}
      />
    </Source>
  )
}

function ItemMarks({ data, theme }: MarksProps) {
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
        minzoom={12}
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

function Finds({ data, theme, colours }: LabelledProps) {
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

function Nests({ data, theme, colours }: LabelledProps) {
  const icon = pick('status', [['in use', 'nest-in-use']], 'nest-not-in-use', theme)
  return <LabelledSymbols id="bird-nests" data={data} icon={icon} colours={colours} />
}

interface SymbolsProps {
  readonly id: string
  readonly data: Points
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
