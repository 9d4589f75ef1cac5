import { Suspense, useMemo } from 'react'
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
import { PHONE, useMedia } from '../ui/use-media.ts'

/** Height of the legend with its surroundings, and share of a phone that the half sheet takes. */
const LEGEND_PX = 200
const SHEET_SHARE = 0.5

/** The map with the land, the feeder and what the person adds. */
export function FeederMap() {
  const { feeder } = useFeeder()
  const { person } = useSelection()
  const { MapLayers, LegendRows } = PERSON_SCREENS[person]
  const isPhone = useMedia(PHONE)
  const covered = isPhone
    ? { top: 56, right: 44, bottom: window.innerHeight * SHEET_SHARE + 24, left: 44 }
    : { top: 48, right: 48, bottom: LEGEND_PX, left: 48 }
  const bounds = useMemo(() => boundsOf(feeder.poles.map(({ at }) => at)), [feeder])
  return (
    <MapView bounds={bounds} covered={covered}>
      <LandLayers placeId={feeder.header.place ?? null} />
      <FeederLayers />
      <Suspense>{MapLayers && <MapLayers />}</Suspense>
      <Camera offsetPx={[0, isPhone ? -window.innerHeight * SHEET_SHARE * 0.5 : 0]} />
      <MapKeys />
      <Legend>
        <Suspense>{LegendRows && <LegendRows />}</Suspense>
      </Legend>
    </MapView>
  )
}
