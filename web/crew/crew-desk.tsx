import { RecordFoot } from '../record/record-foot.tsx'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { EmptyNote } from '../ui/state-note.tsx'
import { CrewCautions } from './crew-cautions.tsx'
import { CrewPole } from './crew-pole.tsx'
import './crew.css'
import { PoleFinder } from './pole-finder.tsx'

/** The crew's desk: find a pole, then everything needed at it. */
export function CrewDesk() {
  const { poleById } = useFeeder()
  const { pole: poleId } = useSelection()
  const pole = poleId === null ? undefined : poleById.get(poleId)
  return (
    <div className="crew stack">
      {poleId !== null && !pole && (
        <EmptyNote what={`This feeder has no pole ${poleId}.`}>
          <Button onClick={() => select({ pole: null })}>Back to the search</Button>
        </EmptyNote>
      )}
      {pole ? <CrewPole pole={pole} /> : <PoleFinder />}
      <CrewCautions />
      {!pole && <RecordFoot />}
    </div>
  )
}
