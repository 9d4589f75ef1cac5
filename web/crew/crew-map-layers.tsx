import { Layer, Source } from '@vis.gl/react-maplibre'
import type { Position } from '#domain/feeder/geometry.ts'
import { type MapColours, useMapColours } from '../map/map-colours.ts'
import { SLOTS } from '../map/slots.ts'
import { useSelection } from '../state/selection.ts'
import { crewViewOf } from './crew-view.ts'
import { useDevicePosition } from './device-position.ts'
import { JobMapLayers } from './jobs/job-map-layers.tsx'
import { useTypedPlace } from './search-state.ts'

/** The open job, where the device is, and the coordinates that were typed. */
export function CrewMapLayers() {
  const colours = useMapColours()
  const device = useDevicePosition()
  const typed = useTypedPlace()
  const view = crewViewOf(useSelection().view)
  return (
    <>
      {'jobId' in view && <JobMapLayers key={view.jobId} jobId={view.jobId} colours={colours} />}
      {device.status === 'known' && (
        <Mark id="crew-device" at={device.at} colour={colours.focus} colours={colours} />
      )}
      {typed && <Mark id="crew-typed" at={typed} colour={colours.accent} colours={colours} />}
    </>
  )
}

interface MarkProps {
  readonly id: string
  readonly at: Position
  readonly colour: string
  readonly colours: MapColours
}

/** A filled dot in a ring. */
function Mark({ id, at, colour, colours }: MarkProps) {
  const point = { type: 'Point' as const, coordinates: [...at] }
  return (
    <Source id={id} type="geojson" data={point}>
      <Layer
        id={`${id}-ring`}
        type="circle"
        beforeId={SLOTS.marks}
        paint={{
          'circle-radius': 13,
          'circle-color': 'transparent',
          'circle-stroke-color': colour,
          'circle-stroke-width': 3,
        }}
      />
      <Layer
        id={`${id}-dot`}
        type="circle"
        beforeId={SLOTS.marks}
        paint={{
          'circle-radius': 6,
          'circle-color': colour,
          'circle-stroke-color': colours.paper,
          'circle-stroke-width': 2,
        }}
      />
    </Source>
  )
}
