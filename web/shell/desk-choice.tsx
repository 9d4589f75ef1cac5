import { select, useSelection } from '../state/selection.ts'
import { BarSelect } from './bar-select.tsx'

/** Whose desk stands open. Anybody may look at any; what they may do there depends on their roles. */
export function DeskChoice() {
  const { person } = useSelection()
  return (
    <BarSelect
      label="Desk"
      value={person}
      choices={[
        ['planner', 'Planner'],
        ['coordinator', 'Coordinator'],
        ['crew', 'Crew'],
        ['supervisor', 'Supervisor'],
      ]}
      onChoose={(chosen) => select({ person: chosen, view: null })}
    />
  )
}
