import { PERSONS } from '../api/actor.ts'
import { select, useSelection } from '../state/selection.ts'
import './top-bar.css'

const NAMES = { planner: 'Planner', coordinator: 'Coordinator', crew: 'Crew' } as const

export function TopBar() {
  const { person } = useSelection()
  return (
    <header className="top-bar">
      <label>
        Person{' '}
        <select
          className="input"
          value={person}
          onChange={({ target }) =>
            select({ person: PERSONS.find((name) => name === target.value), view: null })
          }
        >
          {PERSONS.map((name) => (
            <option key={name} value={name}>
              {NAMES[name]}
            </option>
          ))}
        </select>
      </label>
    </header>
  )
}
