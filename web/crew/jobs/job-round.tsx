import { useEffect } from 'react'
import { distanceText } from '../../jobs/places/distance-text.ts'
import { counted } from '../../state/format.ts'
import { useSelection } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { useDevicePosition } from '../device-position.ts'
import { NearMe } from '../near-me.tsx'
import { NeedleNote } from '../needle-note.tsx'
import type { FieldJob } from '../work/fold-field-job.ts'
import { JobPole } from './job-pole.tsx'
import { roundLengthM } from './round-order.ts'
import { type Round, startRoundAt } from './use-round.ts'

interface Props {
  readonly field: FieldJob
  readonly round: Round
  /** Where the next step is; its pole stands open. */
  readonly nextPole: string | null
}

/** The poles of a job in the order of going round them, with the way between. */
export function JobRound({ field, round, nextPole }: Props) {
  const { units } = useSelection()
  const device = useDevicePosition()
  const { id: jobId, plan } = field.job
  const { order, start, missing } = round
  const deviceAt = device.status === 'known' ? device.at : null
  useEffect(() => {
    if (deviceAt && !start) startRoundAt(jobId, deviceAt)
  }, [deviceAt, start, jobId])
  const isRound = order.length > 1
  return (
    <section className="stack" aria-label="Poles of this job">
      <h3>{isRound ? `${counted(order.length, 'pole')}, in the order to go` : 'The pole'}</h3>
      {isRound && (
        <p>
          {distanceText(roundLengthM(order), units)} in all, straight from pole to pole
          {start ? ', from where you were when it was ordered' : ''}; roads may ask for another
          order.
        </p>
      )}
      {missing.length > 0 && (
        <p className="state-note">
          The feeder on this device has no pole {missing.join(', ')}: it may be an older copy. Fetch
          it anew where there is a connection.
        </p>
      )}
      {order.map((stop, index) => {
        const work = plan.poles.find(({ pole }) => pole === stop.pole)
        return (
          work && (
            <JobPole
              key={stop.pole}
              field={field}
              work={work}
              stop={stop}
              place={isRound ? index + 1 : null}
              isFirstOpen={stop.pole === (nextPole ?? order[0]?.pole)}
            />
          )
        )
      })}
      <NearMe units={units} asks="Show the way: use my position" />
      {isRound && deviceAt && (
        <Button onClick={() => startRoundAt(jobId, deviceAt)}>Order anew from where I am</Button>
      )}
      {deviceAt && <NeedleNote />}
    </section>
  )
}
