import { useMay } from '../api/account.ts'
import { RecordFoot } from '../record/record-foot.tsx'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { BirdCautions } from './bird-cautions.tsx'
import { BirdPolePanel } from './bird-pole-panel.tsx'
import './coordinator.css'
import { FiguresLine } from './figures-line.tsx'
import { MonthChoice } from './month-choice.tsx'
import { PoleList } from './pole-list.tsx'
import { type BirdRecord, useBirdRecord } from './use-bird-record.ts'

/** The coordinator's desk: poles by what a bird can bridge, and what hangs on them. */
export function CoordinatorDesk() {
  const record = useBirdRecord()
  const { feeder } = useFeeder()
  if (record.poles.length === 0) {
    return (
      <EmptyNote what="The points of this feeder stand for no known poles, so there is nothing to protect here. Open a feeder whose poles are surveyed or invented." />
    )
  }
  return (
    <div className="stack">
      <h2 className="visually-hidden">Birds on {feeder.header.name}</h2>
      {record.isLoading && <LoadingNote what="Fetching guards, covers and perches…" />}
      {record.error && (
        <ErrorNote
          title="Guards, covers and perches did not arrive; the rest is shown without them"
          error={record.error}
          onRetry={record.retry}
        />
      )}
      <DeskBody record={record} />
      <BirdCautions />
    </div>
  )
}

function DeskBody({ record }: { readonly record: BirdRecord }) {
  const { pole } = useSelection()
  if (pole === null) {
    return (
      <>
        <FiguresLine figures={record.figures} />
        <MissingLayers record={record} />
        <MonthChoice />
        <PoleList poles={record.poles} />
        <RecordFoot />
      </>
    )
  }
  const found = record.poles.find((candidate) => candidate.pole.id === pole)
  if (!found) {
    return (
      <EmptyNote what={`This feeder has no pole ${pole}.`}>
        <Button onClick={() => select({ pole: null, view: null })}>Back to all poles</Button>
      </EmptyNote>
    )
  }
  return <BirdPolePanel found={found} items={record.items.filter((item) => item.pole === pole)} />
}

/** Says what would fill the layers that the feeder came without. */
function MissingLayers({ record }: { readonly record: BirdRecord }) {
  const { feeder } = useFeeder()
  const maySeeFinds = useMay('see nests and incidents')
  const missing = [
    record.figures.unknown === record.figures.poles &&
      'No separations are recorded: phase_to_phase_… and phase_to_ground_… in poles.geojson would fill them.',
    !maySeeFinds &&
      'Nests and dead or injured birds are not shown to readers: where they are is protected.',
    maySeeFinds &&
      feeder.nests.length === 0 &&
      'No nests: nests.geojson would show them with their buffers.',
    maySeeFinds &&
      feeder.incidents.length === 0 &&
      'No dead or injured birds: incidents.geojson would show them.',
    record.items.length === 0 &&
      'No guards, covers or perches yet: choose a pole and add one, or bring covers.geojson along.',
  ].filter((text) => text !== false)
  if (missing.length === 0) return null
  return (
    <ul className="state-note" aria-label="What is missing from the bird record">
      {missing.map((text) => (
        <li key={text}>{text}</li>
      ))}
    </ul>
  )
}
