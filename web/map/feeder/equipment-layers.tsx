import { Layer, Source } from '@vis.gl/react-maplibre'
import type { SymbolLayerSpecification } from 'maplibre-gl'
import { useMemo } from 'react'
import { useFeeder } from '../../state/feeder.tsx'
import { SLOTS } from '../slots.ts'
import { equipmentFeatures } from './feeder-features.ts'

export const MAIN_EQUIPMENT_FROM_ZOOM = 8.5
export const ALL_EQUIPMENT_FROM_ZOOM = 15.6

const LAYOUT: SymbolLayerSpecification['layout'] = {
  'icon-image': ['concat', 'symbol-', ['get', 'symbol']],
  'icon-rotate': ['get', 'turnDeg'],
  'icon-rotation-alignment': 'map',
  'icon-offset': ['get', 'offset'],
  'symbol-sort-key': ['get', 'rank'],
}

/** Equipment beside its pole. What decides the voltage is seen from far, as long as there is room. */
export function EquipmentLayers() {
  const open = useFeeder()
  const data = useMemo(() => equipmentFeatures(open), [open])
  return (
    <Source id="feeder-equipment" type="geojson" data={data} promoteId="id">
      <Layer
        id="feeder-equipment-main"
        type="symbol"
        minzoom={MAIN_EQUIPMENT_FROM_ZOOM}
        beforeId={SLOTS.poles}
        filter={['==', ['get', 'isMain'], true]}
        layout={{
          ...LAYOUT,
          'icon-size': ['interpolate', ['linear'], ['zoom'], 8.5, 0.75, 16, 1.1],
          'icon-padding': 1,
          'icon-allow-overlap': ['step', ['zoom'], false, 13, true],
        }}
      />
      <Layer
        id="feeder-equipment"
        type="symbol"
        minzoom={ALL_EQUIPMENT_FROM_ZOOM}
        beforeId={SLOTS.poles}
        filter={['==', ['get', 'isMain'], false]}
        layout={{
          ...LAYOUT,
          'icon-size': ['interpolate', ['linear'], ['zoom'], 15.6, 0.85, 18, 1.15],
          'icon-allow-overlap': true,
        }}
      />
    </Source>
  )
}
