import { useState } from 'react'
import type { BirdPole } from '#domain/avian/pole-urgency.ts'
import { URGENCY_RULE } from '#domain/avian/pole-urgency.ts'
import { urgencyReasons } from '#domain/avian/urgency-reasons.ts'
import { showPlace } from '../state/camera.ts'
import { hoverPole } from '../state/hover.ts'
import { select } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { EmptyNote } from '../ui/state-note.tsx'
import { filterPoles, POLE_FILTERS, type PoleFilter } from './pole-filter.ts'
import { VerdictMark } from './verdict-mark.tsx'

/** Rows drawn at first, and added by each step. */
const PAGE = 40

/** Poles by urgency, with the reason in words. */
export function PoleList({ poles }: { readonly poles: readonly BirdPole[] }) {
  const [filter, setFilter] = useState<PoleFilter>('all')
  const [scrap, setScrap] = useState('')
  const [shown, setShown] = useState(PAGE)
  const found = filterPoles(poles, filter, scrap)
  return (
    <section className="stack" aria-label="Poles by urgency">
      <Field label="Find a pole by any part of its id">
        {(control) => (
          <input
            className="input"
            type="search"
            value={scrap}
            onChange={(event) => setScrap(event.target.value)}
            {...control}
          />
        )}
      </Field>
      <fieldset className="bird-filters">
        <legend className="field-label">Show</legend>
        {POLE_FILTERS.map(({ id, name }) => (
          <Button key={id} isPressed={filter === id} onClick={() => setFilter(id)}>
            {name}
          </Button>
        ))}
      </fieldset>
      <p className="soft small" role="status">
        {found.length} of {poles.length} poles, most urgent first. {URGENCY_RULE}
      </p>
      {found.length === 0 ? (
        <EmptyNote what="No pole answers to this. Choose “All” or another part of the id." />
      ) : (
        <List label="Poles, most urgent first">
          {found.slice(0, shown).map((pole) => (
            <PoleRow key={pole.pole.id} found={pole} />
          ))}
        </List>
      )}
      {found.length > shown && (
        <Button onClick={() => setShown(shown + PAGE)}>
          Show {Math.min(PAGE, found.length - shown)} more of {found.length - shown}
        </Button>
      )}
    </section>
  )
}

function PoleRow({ found }: { readonly found: BirdPole }) {
  const [first, ...rest] = urgencyReasons(found)
  const { id } = found.pole
  return (
    <ListRow
      onChoose={() => {
        select({ pole: id, view: null })
        showPlace(found.pole.at)
      }}
      onPreview={(isOn) => hoverPole(isOn ? id : null)}
    >
      <span className="bird-row-head">
        <VerdictMark verdict={found.separation.verdict} /> Pole {id}
      </span>
      <span>{first}</span>
      {rest.length > 0 && <span className="soft">{rest.join(' ')}</span>}
    </ListRow>
  )
}
