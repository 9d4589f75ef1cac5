import { POLE_STATES } from '#domain/avian/assessment/pole-assessment.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { birdSpecies } from '#domain/avian/species/shipped-species.ts'
import { useMay } from '../../api/account.ts'
import { POLE_STATE_WORDS } from '../../birds/pole-state-mark.tsx'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { changeFilter, useListState } from './list-state.ts'
import { NO_FILTER, type PoleFilter } from './pole-filter.ts'

const STATES: readonly (readonly [NonNullable<PoleFilter['state']>, string])[] = [
  ['can be bridged', 'can be bridged'],
  ...POLE_STATES.map((state) => [state, POLE_STATE_WORDS[state]] as const),
]

/** What the list is narrowed by. */
export function FilterFields({ settings }: { readonly settings: BirdSettings }) {
  const { filter } = useListState()
  const maySeeNests = useMay('see nests and incidents')
  const maySeeJobs = useMay('see jobs')
  const isNarrowed = Object.entries(NO_FILTER).some(
    ([key, value]) => filter[key as keyof PoleFilter] !== value,
  )
  return (
    <fieldset className="bird-filters">
      <legend className="visually-hidden">Show only</legend>
      <Field label="Find a pole by any part of its id">
        {(control) => (
          <input
            className="input"
            type="search"
            value={filter.scrap}
            onChange={({ target }) => changeFilter({ scrap: target.value })}
            {...control}
          />
        )}
      </Field>
      <div className="bird-filter-pair">
        <Field label="State">
          {(control) => (
            <select
              className="input"
              value={filter.state ?? ''}
              onChange={({ target }) =>
                changeFilter({
                  state: STATES.find(([state]) => state === target.value)?.[0] ?? null,
                })
              }
              {...control}
            >
              <option value="">any</option>
              {STATES.map(([state, words]) => (
                <option key={state} value={state}>
                  {words}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field label="Can be bridged by">
          {(control) => (
            <select
              className="input"
              value={filter.speciesId ?? ''}
              onChange={({ target }) => changeFilter({ speciesId: target.value || null })}
              {...control}
            >
              <option value="">any or none</option>
              {birdSpecies(settings).map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field label="Due for a look by">
          {(control) => (
            <input
              className="input"
              type="date"
              value={filter.dueBy ?? ''}
              onChange={({ target }) => changeFilter({ dueBy: target.value || null })}
              {...control}
            />
          )}
        </Field>
        {maySeeNests && (
          <label className="bird-check">
            <input
              type="checkbox"
              checked={filter.isNearNest}
              onChange={({ target }) => changeFilter({ isNearNest: target.checked })}
            />
            Near a nest in use
          </label>
        )}
        {maySeeJobs && (
          <label className="bird-check">
            <input
              type="checkbox"
              checked={filter.waitsForJob}
              onChange={({ target }) => changeFilter({ waitsForJob: target.checked })}
            />
            Waits for a job
          </label>
        )}
      </div>
      {isNarrowed && (
        <Button look="plain" onClick={() => changeFilter(NO_FILTER)}>
          Show all poles
        </Button>
      )}
    </fieldset>
  )
}
