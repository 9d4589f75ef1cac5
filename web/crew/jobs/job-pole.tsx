import { useEffect, useRef, useState } from 'react'
import type { Pole } from '#domain/feeder/pole.ts'
import type { PoleWork } from '#domain/jobs/job-plan.ts'
import { measureInWords } from '../../birds/measure-words.ts'
import { usePoleBirds } from '../../birds/use-pole-birds.ts'
import { capitalised, stepsInWords } from '../../jobs/job-words.ts'
import { wayTo } from '../../jobs/places/bearing.ts'
import { distanceText } from '../../jobs/places/distance-text.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { counted } from '../../state/format.ts'
import { useSelection } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { CrewFold } from '../crew-fold.tsx'
import { useDevicePosition } from '../device-position.ts'
import { openCrewView } from '../open-crew-view.ts'
import { PoleAccess } from '../pole-access.tsx'
import { PoleBirds } from '../pole-birds.tsx'
import { PoleCheckForm } from '../pole-check-form.tsx'
import { PoleNeighbours } from '../pole-neighbours.tsx'
import { WayNeedle } from '../way-needle.tsx'
import type { FieldJob } from '../work/fold-field-job.ts'
import { JobPhotos } from '../work/photos/job-photos.tsx'
import { countAt } from './next-step.ts'
import type { OrderedStop } from './round-order.ts'

interface Props {
  readonly field: FieldJob
  readonly work: PoleWork
  readonly stop: OrderedStop
  /** Its place in the round, from 1; null where there is only one. */
  readonly place: number | null
  readonly isFirstOpen: boolean
}

/** One pole of a job: the way there, what it looks like, and what is done at it. */
export function JobPole({ field, work, stop, place, isFirstOpen }: Props) {
  const { units, pole: chosen } = useSelection()
  const [isOpen, setIsOpen] = useState(isFirstOpen)
  const ref = useRef<HTMLDetailsElement>(null)
  useEffect(() => setIsOpen(isFirstOpen), [isFirstOpen])
  useEffect(() => {
    if (chosen !== work.pole) return
    setIsOpen(true)
    ref.current?.scrollIntoView({ block: 'start' })
  }, [chosen, work.pole])
  const count = countAt(field.run, work.pole)
  return (
    <details
      ref={ref}
      className="crew-fold job-stop"
      open={isOpen}
      onToggle={({ currentTarget }) => setIsOpen(currentTarget.open)}
    >
      <summary>
        <strong className="crew-pole-id">
          {place !== null && `${place}. `}
          {work.pole}
        </strong>{' '}
        {count.done === count.all && count.leftOut === 0 ? '✓ ' : ''}
        {stepsInWords(count)}
        {stop.fromLastM !== null && place !== null && place > 1 && (
          <>, {distanceText(stop.fromLastM, units)} from the one before</>
        )}
      </summary>
      {isOpen && <StopBody field={field} work={work} />}
    </details>
  )
}

function StopBody({ field, work }: Pick<Props, 'field' | 'work'>) {
  const { units } = useSelection()
  const pole = useFeeder().poleById.get(work.pole)
  const device = useDevicePosition()
  if (!pole) return null
  const { id: jobId } = field.job
  return (
    <div className="stack">
      {device.status === 'known' && (
        <p className="crew-way">
          <WayNeedle way={wayTo(device.at, pole.at)} units={units} hasTurn />
        </p>
      )}
      <p>{pole.location ?? 'No directions in words are recorded.'}</p>
      <WorkHere work={work} />
      <div className="row">
        <Button onClick={() => openCrewView({ part: 'steps', jobId, poleId: pole.id }, pole.id)}>
          Steps at {pole.id}
        </Button>
        <Button onClick={() => openCrewView({ part: 'pole finder' }, pole.id)}>
          All about {pole.id}
        </Button>
      </div>
      <PoleAccess pole={pole} />
      <CrewFold title="Is it the right pole?">
        <PoleNeighbours pole={pole} />
        <PoleCheckForm poleId={pole.id} />
      </CrewFold>
      <BirdsFold pole={pole} />
      <CrewFold title="Photos of this job">
        <JobPhotos field={field} poleId={pole.id} />
      </CrewFold>
    </div>
  )
}

/** Hundreds of pairs on a page would hide what can hurt below them. */
function BirdsFold({ pole }: { readonly pole: Pole }) {
  const pairs = usePoleBirds(pole.id).found?.assessment.pairs
  const title = pairs ? `Birds: ${counted(pairs.length, 'open pair')}` : 'Birds'
  return (
    <CrewFold title={title}>
      <PoleBirds pole={pole} />
    </CrewFold>
  )
}

function WorkHere({ work }: { readonly work: PoleWork }) {
  const { units } = useSelection()
  const { measures, sequence } = work
  const parts = usePoleBirds(work.pole).found?.assessment.poleTop?.parts ?? []
  return (
    <section className="stack" aria-label="What is done here">
      <h3>What is done here</h3>
      <p>{sequence.name}</p>
      {measures.length > 0 && (
        <CrewFold title={`Bird work: ${counted(measures.length, 'measure')}`}>
          <ul className="crew-kit">
            {measures.map((measure) => (
              <li key={`${measure.kind} ${measure.partIds.join(' ')}`}>
                {capitalised(measureInWords(measure, parts, units))}
              </li>
            ))}
          </ul>
        </CrewFold>
      )}
    </section>
  )
}
