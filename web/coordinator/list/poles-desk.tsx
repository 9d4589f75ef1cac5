import { designSpecies } from '#domain/avian/species/shipped-species.ts'
import { useMay } from '../../api/account.ts'
import { RecordFoot } from '../../record/record-foot.tsx'
import { select, useSelection } from '../../state/selection.ts'
import { localToday } from '../../state/today.ts'
import { Button } from '../../ui/button.tsx'
import { EmptyNote } from '../../ui/state-note.tsx'
import { DayChoice } from '../day-choice.tsx'
import { BirdPolePanel } from '../pole/bird-pole-panel.tsx'
import type { BirdRecord } from '../use-bird-record.ts'
import { FiguresLine } from './figures-line.tsx'
import { listFigures } from './listed-pole.ts'
import { listedPoles } from './listed-poles.ts'
import { PoleList } from './pole-list.tsx'

/** The list of poles, or the one that is open. */
export function PolesDesk({ record }: { readonly record: BirdRecord }) {
  const { pole } = useSelection()
  if (pole !== null) return <OnePole record={record} pole={pole} />
  const listed = listedPoles(record)
  const today = localToday()
  return (
    <>
      <FiguresLine
        figures={listFigures(listed, today)}
        species={designSpecies(record.settings).name}
        today={today}
      />
      <MissingLayers record={record} />
      <div>
        <Button look="main" onClick={() => select({ view: 'year' })}>
          Plan the year
        </Button>
      </div>
      {record.feeder.nests.length > 0 && <DayChoice />}
      <PoleList record={record} listed={listed} />
      <RecordFoot />
    </>
  )
}

function OnePole({ record, pole }: { readonly record: BirdRecord; readonly pole: string }) {
  if (record.sites.some((site) => site.pole.id === pole)) {
    return <BirdPolePanel poleId={pole} record={record} />
  }
  return (
    <EmptyNote what={`This feeder has no pole ${pole}.`}>
      <Button onClick={() => select({ pole: null, view: null })}>Back to all poles</Button>
    </EmptyNote>
  )
}

/** Says what would fill the layers that the feeder came without. */
function MissingLayers({ record }: { readonly record: BirdRecord }) {
  const { feeder, items, isLoading } = record
  const maySeeFinds = useMay('see nests and incidents')
  const missing = [
    !maySeeFinds &&
      'Nests and dead or injured birds are not shown to readers: where they are is protected.',
    maySeeFinds &&
      feeder.nests.length === 0 &&
      'No nests: record one under Finds, or bring nests.geojson along.',
    maySeeFinds &&
      feeder.incidents.length === 0 &&
      'No dead or injured birds: record a find under Finds, or bring incidents.geojson along.',
    !isLoading &&
      items.length === 0 &&
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
