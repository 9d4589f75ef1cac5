import { lazy, Suspense, useEffect, useMemo, useState } from 'react'
import { useJobs } from '../api/jobs.ts'
import { JobStateMark } from '../jobs/job-state-mark.tsx'
import { polesInWords } from '../jobs/job-words.ts'
import type { Units } from '../state/address.ts'
import { showPlace } from '../state/camera.ts'
import { useFeeder } from '../state/feeder.tsx'
import { hoverPole } from '../state/hover.ts'
import { select, useSelection } from '../state/selection.ts'
import { useFullSheet } from '../state/sheet-height.ts'
import { Field } from '../ui/field.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { LoadingNote } from '../ui/state-note.tsx'
import { type FoundAcross, searchPoles } from './crew-search.ts'
import { viewText } from './crew-view.ts'
import { useDevicePosition } from './device-position.ts'
import { findJobs } from './jobs/find-jobs.ts'
import { openJob } from './jobs/job-row.tsx'
import { useKnownFeeders } from './known-feeders.ts'
import { NearMe } from './near-me.tsx'
import { NeedleNote } from './needle-note.tsx'
import { markTypedPlace, typeSearch, useSearchText } from './search-state.ts'
import { WayNeedle } from './way-needle.tsx'

const ScanLabel = lazy(async () => ({
  default: (await import('./scan/scan-label.tsx')).ScanLabel,
}))

/** More rows help nobody who stands in a field. */
const MOST_ROWS = 30

/** Finds a pole by a scrap of its number, by its job, by coordinates, by its label, or near the device. */
export function PoleFinder() {
  const feeders = useKnownFeeders()
  const { units } = useSelection()
  const text = useSearchText()
  const device = useDevicePosition()
  const deviceAt = device.status === 'known' ? device.at : null
  const [isBegun, setIsBegun] = useState(text !== '')
  // With a keyboard open half a phone is left, which the field and its answers need. Not lowered
  // where the field is left: what the finger goes for would move away below it.
  useFullSheet(isBegun)
  const answer = useMemo(() => searchPoles(feeders, text, deviceAt), [feeders, text, deviceAt])
  useEffect(() => {
    markTypedPlace(answer.typedAt)
    if (answer.typedAt && answer.poles.length > 0) showPlace(answer.typedAt)
  }, [answer])
  return (
    <section className="stack" aria-label="Find a pole">
      <Field label="Pole number, job or coordinates">
        {(control) => (
          <input
            className="input crew-search"
            type="search"
            autoComplete="off"
            autoCapitalize="characters"
            spellCheck={false}
            value={text}
            onChange={(event) => typeSearch(event.target.value)}
            onFocus={() => setIsBegun(true)}
            {...control}
          />
        )}
      </Field>
      <FoundJobs text={text} />
      <p role="status">{answer.heading}</p>
      {answer.poles.length > 0 && (
        <List label="Poles found">
          {answer.poles.slice(0, MOST_ROWS).map((found) => (
            <FoundRow key={`${found.feeder.id} ${found.pole.id}`} found={found} units={units} />
          ))}
        </List>
      )}
      {answer.poles.length > MOST_ROWS && (
        <p>The first {MOST_ROWS} are listed; type more of the number to narrow it down.</p>
      )}
      <Suspense fallback={<LoadingNote what="Opening the scanner…" />}>
        <ScanLabel feeders={feeders} />
      </Suspense>
      <NearMe units={units} />
      <p>
        Type any part of the number or of a job’s title, or degrees, UTM or US National Grid: 418 ·
        43.5123 -107.2210 · 13T CJ 12345 67890
      </p>
      {deviceAt && <NeedleNote />}
    </section>
  )
}

function FoundJobs({ text }: { readonly text: string }) {
  const jobs = findJobs(useJobs(null).data ?? [], text)
  if (jobs.length === 0) return null
  return (
    <List label="Jobs found">
      {jobs.slice(0, MOST_ROWS).map((job) => (
        <ListRow key={job.id} onChoose={() => openJob(job)}>
          <strong>{job.title}</strong>
          <span>Job at {polesInWords(job.poles)}</span>
          <JobStateMark state={job.state} />
        </ListRow>
      ))}
    </List>
  )
}

function FoundRow({ found, units }: { readonly found: FoundAcross; readonly units: Units }) {
  const openId = useFeeder().feeder.header.id
  const { pole, feeder } = found
  const open = () =>
    select({ feeder: feeder.id, pole: pole.id, view: viewText({ part: 'pole finder' }) })
  return (
    <ListRow
      onChoose={open}
      onPreview={(isOn) => feeder.id === openId && hoverPole(isOn ? pole.id : null)}
    >
      <strong className="crew-pole-id">{pole.id}</strong>
      {feeder.id !== openId && <span>On {feeder.name}</span>}
      {found.way && <WayNeedle way={found.way} units={units} />}
      {pole.location && <span>{pole.location}</span>}
    </ListRow>
  )
}
