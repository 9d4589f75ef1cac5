import { useState } from 'react'
import { ProblemError } from '#contract/read-answer.ts'
import { useTakeIn } from '../api/feeders.ts'
import { select } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { FindingText } from './findings-view.tsx'
import { type ReadLayers, readLayers } from './read-layers.ts'
import { TakeInLater } from './take-in-later.tsx'

/** Takes in the files of a feeder folder; a feeder with errors is refused whole. */
export function AddFeeder({ isFirst = false }: { readonly isFirst?: boolean }) {
  const [read, setRead] = useState<ReadLayers | null>(null)
  const takeIn = useTakeIn()
  const names = Object.keys(read?.layers ?? {})
  const isReady = read !== null && read.faults.length === 0
  return (
    <section className="stack planner">
      <div className="planner-head">
        <h2>Add a feeder</h2>
        {!isFirst && (
          <Button look="plain" onClick={() => select({ view: null })}>
            Back
          </Button>
        )}
      </div>
      <p>
        A feeder is a folder of GeoJSON layers: feeder.json, poles.geojson and spans.geojson, and as
        many of equipment, loads, nests, habitat, incidents, covers, access and keepout as there
        are. A feeder with an id that is known becomes its next version.
      </p>
      <Field label="Files of the folder" hint="Choose all of them at once.">
        {(control) => (
          <input
            {...control}
            className="input planner-files"
            type="file"
            multiple
            accept=".json,.geojson"
            onChange={({ target }) => {
              takeIn.reset()
              void readLayers([...(target.files ?? [])]).then(setRead)
            }}
          />
        )}
      </Field>
      {read?.faults.map((fault) => (
        <ErrorNote key={fault} title="A file cannot be read." error={fault} />
      ))}
      {names.length > 0 && <p>Read: {names.join(', ')}.</p>}
      <div className="row">
        <Button
          look="main"
          disabled={!isReady || takeIn.isPending}
          onClick={() => read && takeIn.mutate({ layers: { ...read.layers } })}
        >
          {takeIn.isPending ? 'Checking the layers…' : 'Add the feeder'}
        </Button>
      </div>
      <TakeInLater layers={isReady ? { ...read.layers } : null} />
      {takeIn.error && <Refusal error={takeIn.error} />}
      {takeIn.data && (
        <>
          <output>
            Added as {takeIn.data.id}, version {takeIn.data.version}, with{' '}
            {takeIn.data.findings.length} findings.
          </output>
          <Button onClick={() => select({ feeder: takeIn.data.id, view: null })}>Open it</Button>
        </>
      )}
    </section>
  )
}

function Refusal({ error }: { readonly error: Error }) {
  const findings = error instanceof ProblemError ? (error.problem.findings ?? []) : []
  return (
    <>
      <ErrorNote title="Refused whole: nothing of it was kept." error={error} />
      {findings.length > 0 && (
        <List label={`${findings.length} findings`}>
          {findings.map((finding) => (
            <ListRow key={`${finding.code} ${finding.layer} ${finding.featureId} ${finding.what}`}>
              <FindingText finding={finding} />
            </ListRow>
          ))}
        </List>
      )}
    </>
  )
}
