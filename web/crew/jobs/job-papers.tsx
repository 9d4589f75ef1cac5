import { useState } from 'react'
import type { Job } from '#contract/jobs.ts'
import { gpxOf, kmlOf } from '#domain/jobs/waypoint-files.ts'
import { handOver } from '../../api/hand-over.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { Button } from '../../ui/button.tsx'
import { fileNameOf, jobWaypoints } from './job-waypoints.ts'
import { shareJob } from './share-job.ts'

interface Props {
  readonly job: Job
  /** Poles as the crew goes round them. */
  readonly order: readonly string[]
}

/** What of a job is handed on: a link, waypoints for other devices, and papers to print. */
export function JobPapers({ job, order }: Props) {
  const { feeder } = useFeeder()
  const [outcome, setOutcome] = useState('')
  const points = () => jobWaypoints(job, feeder, order)
  const save = (text: string, type: string, ending: string) => {
    const name = fileNameOf(job.title, ending)
    handOver(new Blob([text], { type }), name)
    setOutcome(`${name} was handed to the browser to be saved.`)
  }
  return (
    <div className="stack">
      <div className="row">
        <Button onClick={() => void shareJob(job).then(setOutcome)}>Share the link</Button>
        <Button
          onClick={() => save(gpxOf(points(), { title: job.title }), 'application/gpx+xml', 'gpx')}
        >
          Waypoints as GPX
        </Button>
        <Button
          onClick={() =>
            save(
              kmlOf(points(), { title: job.title }),
              'application/vnd.google-earth.kml+xml',
              'kml',
            )
          }
        >
          Waypoints as KML
        </Button>
      </div>
      <p className="crew-outcome" role="status">
        {outcome}
      </p>
      <p>
        The link opens this job for whoever may sign in. The files hold the poles in the order of
        the round, and the gates.
      </p>
    </div>
  )
}
