import type { ReactNode } from 'react'
import { useMay } from '../../api/account.ts'
import { counted } from '../../state/format.ts'
import { changeFilter, useListState } from './list-state.ts'
import type { ListFigures } from './listed-pole.ts'

interface Props {
  readonly figures: ListFigures
  /** "eagle" */
  readonly species: string
  /** ISO date. */
  readonly today: string
}

/** The first line of the desk: what the record says today. Each part of it filters the list. */
export function FiguresLine({ figures, species, today }: Props) {
  const maySeeNests = useMay('see nests and incidents')
  const { filter } = useListState()
  const { poles, bridgeable, bridgeableNearNest, due, unknown, isComplete } = figures
  if (!isComplete) return <p className="bird-figures">{counted(poles, 'pole')}, being assessed.</p>
  const isBridged = filter.state === 'can be bridged'
  const bridged = { state: 'can be bridged' as const }
  return (
    <p className="bird-figures">
      <FilterPart
        isOn={isBridged}
        onToggle={(isOn) => changeFilter(isOn ? bridged : { state: null, isNearNest: false })}
      >
        <strong>
          {counted(bridgeable, 'pole')} where {article(species)} can bridge energized parts
        </strong>
        ;
      </FilterPart>{' '}
      {maySeeNests ? (
        <FilterPart
          isOn={isBridged && filter.isNearNest}
          onToggle={(isOn) =>
            changeFilter(isOn ? { ...bridged, isNearNest: true } : { isNearNest: false })
          }
        >
          {bridgeableNearNest} within half a mile of a nest in use;
        </FilterPart>
      ) : (
        'how many are near a nest is not shown to readers;'
      )}{' '}
      <FilterPart
        isOn={filter.dueBy === today}
        onToggle={(isOn) => changeFilter({ dueBy: isOn ? today : null })}
      >
        {counted(due, 'retrofit')} due for a look
      </FilterPart>
      {unknown > 0 && (
        <>
          ;{' '}
          <FilterPart
            isOn={filter.state === 'unknown'}
            onToggle={(isOn) => changeFilter({ state: isOn ? 'unknown' : null })}
          >
            {counted(unknown, 'pole')} not known
          </FilterPart>
        </>
      )}
      , of {poles}.
    </p>
  )
}

interface PartProps {
  readonly isOn: boolean
  readonly onToggle: (isOn: boolean) => void
  readonly children: ReactNode
}

function FilterPart({ isOn, onToggle, children }: PartProps) {
  return (
    <button
      type="button"
      className="figure-filter"
      aria-pressed={isOn}
      onClick={() => onToggle(!isOn)}
    >
      {children}
    </button>
  )
}

const article = (name: string): string => `${/^[aeiou]/i.test(name) ? 'an' : 'a'} ${name}`
