import { PoleJobs } from '../jobs/pole-jobs.tsx'
import { Attachments } from '../record/attachments.tsx'
import { showPlace } from '../state/camera.ts'
import { useFeeder } from '../state/feeder.tsx'
import { distance, inWords } from '../state/format.ts'
import { select, useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { PoleFindings } from './pole-findings.tsx'
import { PoleFlow } from './pole-flow.tsx'
import { PoleHangs } from './pole-hangs.tsx'
import { poleInWords, sentence } from './pole-in-words.ts'
import { PoleNeighbours } from './pole-neighbours.tsx'
import { PoleRuledOut } from './pole-ruled-out.tsx'
import { PoleVoltages } from './pole-voltages.tsx'

/** The selected pole in plain words. */
export function PolePanel() {
  const { feeder, poleById, distanceM } = useFeeder()
  const { pole: id, units } = useSelection()
  const pole = poleById.get(id ?? '')
  const close = () => select({ pole: null })
  if (!pole) {
    return (
      <section className="planner-card">
        <p>This feeder has no pole {id}.</p>
        <Button onClick={close}>Let it go</Button>
      </section>
    )
  }
  const awayM = distanceM.get(pole.id)
  return (
    <section className="planner-card stack" aria-label={`Pole ${pole.id}`}>
      <div className="planner-head">
        <h2>Pole {pole.id}</h2>
        <Button look="plain" onClick={close}>
          Close
        </Button>
      </div>
      <p>
        {poleInWords(pole, units)}{' '}
        {awayM === undefined
          ? 'No closed line joins it to the source.'
          : `${inWords(distance(awayM, units))} along the line from the source.`}{' '}
        {pole.location && sentence(pole.location)}
      </p>
      <PoleJobs pole={pole.id} />
      <PoleVoltages pole={pole.id} />
      <PoleFlow pole={pole.id} />
      <PoleHangs pole={pole.id} />
      <PoleRuledOut pole={pole.id} />
      <PoleFindings pole={pole.id} />
      <PoleNeighbours pole={pole.id} />
      <Attachments
        holder={{ feederId: feeder.header.id, attachedTo: 'pole', attachedToId: pole.id }}
        of={`pole ${pole.id}`}
        isReadOnly
      />
      <div className="row">
        <Button onClick={() => showPlace(pole.at, 17)}>Show on the map</Button>
        <Button onClick={() => select({ person: 'coordinator', view: null })}>
          As a bird pole
        </Button>
        <Button onClick={() => select({ person: 'crew', view: null })}>For the crew</Button>
      </div>
    </section>
  )
}
