import { useMemo } from 'react'
import { boundsOf } from '../map/bounds.ts'
import { Camera } from '../map/camera.tsx'
import { FeederLayers } from '../map/feeder/feeder-layers.tsx'
import { LandLayers } from '../map/land/land-layers.tsx'
import { Legend } from '../map/legend.tsx'
import { MapKeys } from '../map/map-keys.tsx'
import { MapView } from '../map/map-view.tsx'
import { PERSON_SCREENS } from '../person-screens.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useSelection } from '../state/selection.ts'

/** The map with the land, the feeder and what the person adds. */
export function FeederMap() {
  const { feeder } = useFeeder()
  const { person } = useSelection()
  const { MapLayers, LegendRows } = PERSON_SCREENS[person]
  const bounds = useMemo(() => boundsOf(feeder.poles.map(({ at }) => at)), [feeder])
  return (
    <MapView bounds={bounds}>
      <LandLayers placeId={feeder.header.place ?? null} />
      <FeederLayers />
      {MapLayers && <MapLayers />}
      <Camera />
      <MapKeys />
      <Legend>{LegendRows && <LegendRows />}</Legend>
    </MapView>
  )
}
