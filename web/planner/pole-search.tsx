import { type FormEvent, useState } from 'react'
import { useOpenJobsByPole } from '../jobs/open-jobs.ts'
import { WaitsForJob } from '../jobs/waits-for-job.tsx'
import { showPlace } from '../state/camera.ts'
import { useFeeder } from '../state/feeder.tsx'
import { distance, inWords } from '../state/format.ts'
import { hoverPole } from '../state/hover.ts'
import { select, useSelection } from '../state/selection.ts'
import { Field } from '../ui/field.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { searchPlaces } from './search-places.ts'

const AT_MOST = 7

/** Finds a pole by any scrap of its number, of its equipment or of who is served there. */
export function PoleSearch() {
  const model = useFeeder()
  const { units } = useSelection()
  const [text, setText] = useState('')
  const found = searchPlaces(model, text, AT_MOST)
  const jobs = useOpenJobsByPole(model.feeder.header.id)
  const open = (pole: string) => {
    const place = model.poleById.get(pole)
    select({ pole })
    if (place) showPlace(place.at)
    setText('')
  }
  const submit = (event: FormEvent) => {
    event.preventDefault()
    const [first] = found
    if (first) open(first.pole)
  }
  return (
    <form onSubmit={submit}>
      <Field label="Find a pole">
        {(control) => (
          <input
            {...control}
            className="input"
            type="search"
            placeholder="Any part of a pole or equipment number"
            autoComplete="off"
            value={text}
            onChange={({ target }) => setText(target.value)}
          />
        )}
      </Field>
      {text !== '' && (
        <output className="small soft">
          {found.length === 0
            ? `Nothing on ${model.feeder.header.name} has “${text}” in its number or name.`
            : `${found.length === AT_MOST ? `The first ${AT_MOST}` : found.length} found`}
        </output>
      )}
      {found.length > 0 && (
        <List label="Poles found">
          {found.map(({ pole, because }) => (
            <ListRow
              key={pole}
              onChoose={() => open(pole)}
              onPreview={(isOn) => hoverPole(isOn ? pole : null)}
            >
              <span>
                <strong>{pole}</strong>{' '}
                <span className="soft">
                  {because ? `${because}, ` : ''}
                  {inWords(distance(model.distanceM.get(pole) ?? 0, units))} from the source
                </span>
              </span>
              {jobs.get(pole)?.map((job) => (
                <span key={job.id} className="small">
                  <WaitsForJob job={job} />
                </span>
              ))}
            </ListRow>
          ))}
        </List>
      )}
    </form>
  )
}
