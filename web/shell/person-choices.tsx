import { useState } from 'react'
import { actorId, keepActorId } from '../api/actor.ts'
import { select, useSelection } from '../state/selection.ts'
import { BarSelect } from './bar-select.tsx'

/** Whose desk stands open, and under which name changes are recorded. */
export function PersonChoices() {
  const { person } = useSelection()
  const [name, setName] = useState(actorId)
  const [isRefused, setIsRefused] = useState(false)
  return (
    <>
      <BarSelect
        label="Person"
        value={person}
        choices={[
          ['planner', 'Planner'],
          ['coordinator', 'Coordinator'],
          ['crew', 'Crew'],
        ]}
        onChoose={(chosen) => select({ person: chosen, view: null })}
      />
      <label className="top-bar-field">
        <span className="top-bar-label">
          {isRefused ? 'Letters, digits, . - _ only' : 'Your name'}
        </span>
        <input
          className="input top-bar-name"
          value={name}
          autoComplete="off"
          aria-invalid={isRefused || undefined}
          onChange={({ target }) => {
            setName(target.value)
            setIsRefused(!keepActorId(target.value))
          }}
        />
      </label>
    </>
  )
}
