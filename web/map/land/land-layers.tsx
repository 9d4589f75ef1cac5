import { Layer } from '@vis.gl/react-maplibre'
import { useLand } from '../../api/feeders.ts'
import { useMapColours } from '../map-colours.ts'
import { SLOTS } from '../slots.ts'
import { useMapStyle } from '../use-map-style.ts'
import { LandGround } from './land-ground.tsx'
import { LandLabels } from './land-labels.tsx'
import { LandRoads } from './land-roads.tsx'
import { LandWater } from './land-water.tsx'

/**
 * Our own base map of a place: ground, contours, water, roads, buildings, fences, names. A feeder
 * without a place stands on plain paper; over the utility's own style nothing of it is drawn.
 */
export function LandLayers({ placeId }: { readonly placeId: string | null }) {
  const colours = useMapColours()
  const land = useLand(placeId)
  const layers = land.data?.layers ?? {}
  if (useMapStyle()?.isOwn) return null
  return (
    <>
      <Layer
        id="land-paper"
        type="background"
        beforeId={SLOTS.land}
        paint={{ 'background-color': colours.paper }}
      />
      {layers.ground && <LandGround ground={layers.ground} contours={layers.contours} />}
      {layers.water && <LandWater water={layers.water} />}
      {layers.roads && (
        <LandRoads roads={layers.roads} fences={layers.fences} buildings={layers.buildings} />
      )}
      {layers.labels && <LandLabels labels={layers.labels} />}
    </>
  )
}
