import { useEffect, useMemo } from 'react'
import type { Units } from '../state/address.ts'
import { showPlace } from '../state/camera.ts'
import { useFeeder } from '../state/feeder.tsx'
import { hoverPole } from '../state/hover.ts'
import { select, useSelection } from '../state/selection.ts'
import { Field } from '../ui/field.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { searchPoles } from './crew-search.ts'
import { useDevicePosition } from './device-position.ts'
import type { FoundPole } from './find-poles.ts'
import { NearMe } from './near-me.tsx'
import { markTypedPlace, typeSearch, useSearchText } from './search-state.ts'
import { WayNeedle } from './way-needle.tsx'

/** More rows help nobody who stands in a field. */
const MOST_ROWS = 30

/** Finds a pole by a scrap of its id, by coordinates, or near the device. */
export function PoleFinder() {
  const { feeder } = useFeeder()
  const { units } = useSelection()
  const text = useSearchText()
  const device = useDevicePosition()
  const deviceAt = device.status === 'known' ? device.at : null
  const answer = useMemo(() => searchPoles(feeder.poles, text, deviceAt), [feeder, text, deviceAt])
  useEffect(() => {
    markTypedPlace(answer.typedAt)
    if (answer.typedAt && answer.poles.length > 0) showPlace(answer.typedAt)
  }, [answer])
  return (
    <section className="stack" aria-label="Find a pole">
      <Field
        label="Pole id or coordinates"
        hint="Any part of the id, or degrees, UTM or US National Grid: 418 · 43.5123 -107.2210 · 13T CJ 12345 67890"
      >
        {(control) => (
          <input
            className="input crew-search"
            type="search"
            autoComplete="off"
            autoCapitalize="characters"
            spellCheck={false}
            value={text}
            onChange={(event) => typeSearch(event.target.value)}
            {...control}
          />
        )}
      </Field>
      <NearMe units={units} />
      <p role="status">{answer.heading}</p>
      {answer.poles.length > 0 && (
        <List label="Poles found">
          {answer.poles.slice(0, MOST_ROWS).map((found) => (
            <FoundRow key={found.pole.id} found={found} units={units} />
          ))}
        </List>
      )}
      {answer.poles.length > MOST_ROWS && (
        <p>The first {MOST_ROWS} are listed; type more of the id to narrow it down.</p>
      )}
    </section>
  )
}

function FoundRow({ found, units }: { readonly found: FoundPole; readonly units: Units }) {
  const { id, location } = found.pole
  return (
    <ListRow
      onChoose={() => select({ pole: id })}
      onPreview={(isOn) => hoverPole(isOn ? id : null)}
    >
      <strong className="crew-pole-id">{id}</strong>
      {found.way && <WayNeedle way={found.way} units={units} />}
      {location && <span>{location}</span>}
    </ListRow>
  )
}
