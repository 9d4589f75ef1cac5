import { useState } from 'react'
import type { Job } from '#contract/jobs.ts'
import { gpxOf, kmlOf } from '#domain/jobs/waypoint-files.ts'
import { handOver } from '../../api/hand-over.ts'
import { PaperButtons } from '../../jobs/paper/open-paper.tsx'
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
  const save = (text: string, type: string, ending: string) => {
    const name = fileNameOf(job.title, ending)
    handOver(new Blob([text], { type }), name)
    setOutcome(`${name} was handed to the browser to be saved.`)
  }
  const points = () => jobWaypoints(job, feeder, order)
  const about = { title: job.title }
  return (
    <div className="stack">
      <div className="row">
        <Button onClick={() => void shareJob(job).then(setOutcome)}>Share the link</Button>
        <Button onClick={() => save(gpxOf(points(), about), 'application/gpx+xml', 'gpx')}>
          Waypoints as GPX
        </Button>
        <Button
          onClick={() =>
            save(kmlOf(points(), about), 'application/vnd.google-earth.kml+xml', 'kml')
          }
        >
          Waypoints as KML
        </Button>
        <PaperButtons />
      </div>
      <p role="status">{outcome}</p>
      <p>
        The link opens this job for whoever may sign in. The files hold the poles in the order of
        the round, and the gates.
      </p>
    </div>
  )
}
