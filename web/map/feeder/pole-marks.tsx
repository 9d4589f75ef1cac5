import { Layer, Source } from '@vis.gl/react-maplibre'
import type { FeatureCollection } from 'geojson'
import { useFeeder } from '../../state/feeder.tsx'
import { useHoveredPole } from '../../state/hover.ts'
import { useSelection } from '../../state/selection.ts'
import { useMapColours } from '../map-colours.ts'
import { SLOTS } from '../slots.ts'

/** Rings around the selected pole and the one under the pointer. */
export function PoleMarks() {
  const { poleById } = useFeeder()
  const { pole: selected } = useSelection()
  const hovered = useHoveredPole()
  const colours = useMapColours()
  const ringAt = (id: string | null): FeatureCollection => {
    const pole = poleById.get(id ?? '')
    if (!pole) return { type: 'FeatureCollection', features: [] }
    const geometry = { type: 'Point' as const, coordinates: pole.at }
    return {
      type: 'FeatureCollection',
      features: [{ type: 'Feature', geometry, properties: { id } }],
    }
  }
  return (
    <>
      <Source id="hovered-pole" type="geojson" data={ringAt(hovered)}>
        <Layer
          id="hovered-pole"
          type="circle"
          beforeId={SLOTS.marks}
          paint={{
            'circle-radius': 8,
            'circle-color': 'transparent',
            'circle-stroke-color': colours.ink,
            'circle-stroke-width': 1.5,
          }}
        />
      </Source>
      <Source id="selected-pole" type="geojson" data={ringAt(selected)}>
        <Layer
          id="selected-pole"
          type="circle"
          beforeId={SLOTS.marks}
          paint={{
            'circle-radius': 11,
            'circle-color': 'transparent',
            'circle-stroke-color': colours.accent,
            'circle-stroke-width': 3,
          }}
        />
      </Source>
    </>
  )
}
