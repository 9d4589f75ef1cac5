import { useEffect, useRef } from 'react'
import type { BirdPole } from '#domain/avian/pole-urgency.ts'
import { urgencyReasons } from '#domain/avian/urgency-reasons.ts'
import { showPlace } from '../state/camera.ts'
import { hoverPole } from '../state/hover.ts'
import { select } from '../state/selection.ts'
import { showWorking } from '../state/working.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { EmptyNote } from '../ui/state-note.tsx'
import { changeList, PAGE, useListState } from './list-state.ts'
import { filterPoles, POLE_FILTERS } from './pole-filter.ts'
import { urgencyWorking } from './urgency-working.ts'
import { VerdictMark } from './verdict-mark.tsx'

/** Poles by urgency, with the reason in words. */
export function PoleList({ poles }: { readonly poles: readonly BirdPole[] }) {
  const { filter, scrap, shown, lastPole } = useListState()
  const ref = useRef<HTMLElement>(null)
  useEffect(() => {
    if (lastPole) rowOf(ref.current, lastPole)?.focus()
  }, [lastPole])
  const found = filterPoles(poles, filter, scrap)
  return (
    <section ref={ref} className="stack" aria-label="Poles by urgency">
      <Field label="Find a pole by any part of its id">
        {(control) => (
          <input
            className="input"
            type="search"
            value={scrap}
            onChange={(event) => changeList({ scrap: event.target.value, shown: PAGE })}
            {...control}
          />
        )}
      </Field>
      <fieldset className="bird-filters">
        <legend className="field-label">Show</legend>
        {POLE_FILTERS.map(({ id, name }) => (
          <Button
            key={id}
            isPressed={filter === id}
            onClick={() => changeList({ filter: id, shown: PAGE })}
          >
            {name}
          </Button>
        ))}
      </fieldset>
      <p className="soft small" role="status">
        {found.length} of {poles.length} poles, most urgent first.
      </p>
      <div>
        <Button look="plain" onClick={() => showWorking(urgencyWorking(poles))}>
          How the order comes about
        </Button>
      </div>
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
        <Button onClick={() => changeList({ shown: shown + PAGE })}>
          Show {Math.min(PAGE, found.length - shown)} more of {found.length - shown}
        </Button>
      )}
    </section>
  )
}

function rowOf(list: HTMLElement | null, pole: string): HTMLElement | null {
  return list?.querySelector(`[data-pole="${CSS.escape(pole)}"]`)?.closest('button') ?? null
}

function PoleRow({ found }: { readonly found: BirdPole }) {
  const [first, ...rest] = urgencyReasons(found)
  const { id } = found.pole
  return (
    <ListRow
      onChoose={() => {
        changeList({ lastPole: id })
        select({ pole: id, view: null })
        showPlace(found.pole.at)
      }}
      onPreview={(isOn) => hoverPole(isOn ? id : null)}
    >
      <span className="bird-row-head" data-pole={id}>
        <VerdictMark verdict={found.separation.verdict} /> Pole {id}
      </span>
      <span>{first}</span>
      {rest.length > 0 && <span className="soft">{rest.join(' ')}</span>}
    </ListRow>
  )
}
