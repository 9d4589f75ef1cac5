import { Layer, Source } from '@vis.gl/react-maplibre'
import { useMemo } from 'react'
import { JOB_STATES } from '#domain/jobs/job-state.ts'
import { useMay } from '../../api/account.ts'
import { useJobs } from '../../api/jobs.ts'
import { viewOfJob } from '../../jobs/job-view.ts'
import { MAP_FONT } from '../../map/blank-style.ts'
import { useMapClicks } from '../../map/map-clicks.tsx'
import { useMapColours } from '../../map/map-colours.ts'
import { SLOTS } from '../../map/slots.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { hoverPole } from '../../state/hover.ts'
import { select } from '../../state/selection.ts'
import { useTheme } from '../../state/theme.ts'
import { localToday } from '../../state/today.ts'
import { jobImageId, useJobImages } from './job-images.ts'
import { jobSpots } from './job-spots.ts'

const MARKS = 'job-poles'

/** Poles of open jobs by state; a late one in a ring. */
export function SupervisorMapLayers() {
  const { feeder } = useFeeder()
  const maySee = useMay('see jobs')
  const jobs = useJobs(feeder.header.id, maySee).data
  const theme = useTheme()
  const colours = useMapColours()
  const isReady = useJobImages(theme, colours)
  const today = localToday()
  const data = useMemo(() => jobSpots(feeder.poles, jobs ?? [], today), [feeder, jobs, today])
  useMapClicks(
    [MARKS],
    ({ properties }) => select({ view: viewOfJob(String(properties.job)) }),
    (feature) => hoverPole(feature ? String(feature.properties.pole) : null),
  )
  if (!isReady) return null
  return (
    <Source id={MARKS} type="geojson" data={data}>
      <Layer
        id="job-poles-late"
        type="circle"
        beforeId={SLOTS.marks}
        filter={['get', 'late']}
        paint={{
          'circle-radius': 16,
          'circle-color': 'transparent',
          'circle-stroke-color': colours.danger,
          'circle-stroke-width': 3,
        }}
      />
      <Layer
        id={MARKS}
        type="symbol"
        beforeId={SLOTS.labels}
        layout={{
          'icon-image': [
            'match',
            ['get', 'state'],
            ...JOB_STATES.flatMap((state) => [state, jobImageId(state, theme)]),
            jobImageId('drafted', theme),
          ] as unknown as string,
          'icon-size': ['interpolate', ['linear'], ['zoom'], 10, 0.75, 15, 1.1],
          'icon-allow-overlap': true,
          'text-field': ['step', ['zoom'], '', 13, ['get', 'label']],
          'text-font': MAP_FONT,
          'text-size': 12,
          'text-offset': [0, 1.3],
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
