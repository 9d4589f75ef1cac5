import { Layer, Source, useMap } from '@vis.gl/react-maplibre'
import { useEffect, useMemo, useRef } from 'react'
import { useJob } from '../../api/jobs.ts'
import { MAP_FONT } from '../../map/blank-style.ts'
import { boundsOf } from '../../map/bounds.ts'
import { useMapClicks } from '../../map/map-clicks.tsx'
import type { MapColours } from '../../map/map-colours.ts'
import { SLOTS } from '../../map/slots.ts'
import { hoverPole } from '../../state/hover.ts'
import { select } from '../../state/selection.ts'
import { PHONE, useMedia } from '../../ui/use-media.ts'
import { roundFeatures } from './round-features.ts'
import { useRound } from './use-round.ts'

interface Props {
  readonly jobId: string
  readonly colours: MapColours
}

const CLICKED = ['crew-job-stops']

/** The poles of the open job, numbered in the order of going round them. */
export function JobMapLayers({ jobId, colours }: Props) {
  const plan = useJob(jobId).data?.job.plan
  const { order } = useRound(jobId, plan)
  const { stops, way } = useMemo(() => roundFeatures(order), [order])
  useFitToRound(stops)
  useMapClicks(
    CLICKED,
    ({ properties }) => select({ pole: String(properties.pole) }),
    (feature) => hoverPole(feature ? String(feature.properties.pole) : null),
  )
  return (
    <>
      <Source id="crew-job-way" type="geojson" data={way}>
        <Layer
          id="crew-job-way"
          type="line"
          beforeId={SLOTS.marks}
          layout={{ 'line-join': 'round', 'line-cap': 'round' }}
          paint={{ 'line-color': colours.accent, 'line-width': 2.5, 'line-dasharray': [2, 2] }}
        />
      </Source>
      <Source id="crew-job-stops" type="geojson" data={stops}>
        <Layer
          id="crew-job-stops"
          type="circle"
          beforeId={SLOTS.marks}
          paint={{
            'circle-radius': 14,
            'circle-color': colours.paper,
            'circle-opacity': 0,
            'circle-stroke-color': colours.accent,
            'circle-stroke-width': 3.5,
          }}
        />
        <Layer
          id="crew-job-names"
          type="symbol"
          beforeId={SLOTS.labels}
          layout={{
            'text-field': ['get', 'label'],
            'text-font': MAP_FONT,
            'text-size': 16,
            'text-offset': [0, -1.3],
            'text-anchor': 'bottom',
            'text-optional': true,
          }}
          paint={{
            'text-color': colours.accent,
            'text-halo-color': colours.paper,
            'text-halo-width': 2,
          }}
        />
      </Source>
    </>
  )
}

const FIT_PADDING_PX = 56
/** Of a phone, what the half-high sheet covers. */
const SHEET_SHARE = 0.5

/** Brings the map to all poles of a round once; one pole alone is shown by its page. */
function useFitToRound({ features }: ReturnType<typeof roundFeatures>['stops']) {
  const { current: map } = useMap()
  const isPhone = useMedia(PHONE)
  const isFitted = useRef(false)
  useEffect(() => {
    // Another order of the same poles moves nothing.
    if (!map || features.length < 2 || isFitted.current) return
    isFitted.current = true
    const positions = features.map(({ geometry: { coordinates } }): [number, number] => [
      coordinates[0] ?? 0,
      coordinates[1] ?? 0,
    ])
    const bottom = isPhone ? window.innerHeight * SHEET_SHARE + FIT_PADDING_PX : FIT_PADDING_PX
    const padding = { top: FIT_PADDING_PX, right: FIT_PADDING_PX, left: FIT_PADDING_PX, bottom }
    map.fitBounds(boundsOf(positions), { padding, duration: 500, essential: false })
  }, [map, features, isPhone])
}
