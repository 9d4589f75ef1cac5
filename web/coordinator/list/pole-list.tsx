import { useEffect, useRef } from 'react'
import type { JobSummary } from '#contract/jobs.ts'
import { designSpecies } from '#domain/avian/species/shipped-species.ts'
import { PoleStateMark } from '../../birds/pole-state-mark.tsx'
import { useOpenJobsByPole } from '../../jobs/open-jobs.ts'
import { WaitsForJob } from '../../jobs/waits-for-job.tsx'
import { showPlace } from '../../state/camera.ts'
import { hoverPole } from '../../state/hover.ts'
import { select, useSelection } from '../../state/selection.ts'
import { showWorking } from '../../state/working.ts'
import { Button } from '../../ui/button.tsx'
import { List, ListRow } from '../../ui/list.tsx'
import { EmptyNote } from '../../ui/state-note.tsx'
import type { BirdRecord } from '../use-bird-record.ts'
import { FilterFields } from './filter-fields.tsx'
import { changeFilter, changeList, PAGE, useListState } from './list-state.ts'
import type { ListedPole } from './listed-pole.ts'
import { orderWorking, steadinessInWords, steadinessOf } from './order-working.ts'
import { filterPoles, NO_FILTER } from './pole-filter.ts'
import { poleReasons } from './pole-reasons.ts'

interface Props {
  readonly record: BirdRecord
  readonly listed: readonly ListedPole[]
}

/** Poles by rank, with the reason in words. */
export function PoleList({ record, listed }: Props) {
  const { filter, shown, lastPole } = useListState()
  const ref = useRef<HTMLElement>(null)
  useEffect(() => {
    if (lastPole) rowOf(ref.current, lastPole)?.focus()
  }, [lastPole])
  const jobs = useOpenJobsByPole(record.feeder.header.id)
  const found = filterPoles(listed, filter, jobs)
  const species = designSpecies(record.settings).name
  return (
    <section ref={ref} className="stack" aria-label="Poles by rank">
      <FilterFields settings={record.settings} />
      <p className="soft small" role="status">
        {found.length} of {listed.length} poles, first what to do first.
      </p>
      <OrderLine record={record} />
      {found.length === 0 ? (
        <EmptyNote what="No pole answers to all of this.">
          <Button onClick={() => changeFilter(NO_FILTER)}>Show all poles</Button>
        </EmptyNote>
      ) : (
        <List label="Poles, first what to do first">
          {found.slice(0, shown).map((pole) => (
            <PoleRow
              key={pole.pole.id}
              found={pole}
              species={species}
              jobs={jobs.get(pole.pole.id) ?? []}
            />
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

/** How steady the order is, and how it comes about. */
function OrderLine({ record: { ranked, settings } }: Pick<Props, 'record'>) {
  const steadiness = steadinessOf(ranked)
  if (!steadiness) return null
  return (
    <p className="soft small">
      {steadinessInWords(steadiness)}{' '}
      <Button look="plain" onClick={() => showWorking(orderWorking(ranked, settings))}>
        How the order comes about
      </Button>
    </p>
  )
}

function rowOf(list: HTMLElement | null, pole: string): HTMLElement | null {
  return list?.querySelector(`[data-pole="${CSS.escape(pole)}"]`)?.closest('button') ?? null
}

interface RowProps {
  readonly found: ListedPole
  readonly species: string
  /** Open ones on the pole. */
  readonly jobs: readonly JobSummary[]
}

function PoleRow({ found, species, jobs }: RowProps) {
  const { units } = useSelection()
  const [first, ...rest] = poleReasons(found, species, units === 'us')
  const { id, at } = found.pole
  return (
    <ListRow
      onChoose={() => {
        changeList({ lastPole: id })
        select({ pole: id, view: null })
        showPlace(at)
      }}
      onPreview={(isOn) => hoverPole(isOn ? id : null)}
    >
      <span className="bird-row-head" data-pole={id}>
        Pole {id} {found.assessment && <PoleStateMark state={found.assessment.state} />}
      </span>
      <span>{first}</span>
      {rest.length > 0 && <span className="soft">{rest.join(' ')}</span>}
      {jobs.map((job) => (
        <span key={job.id}>
          <WaitsForJob job={job} />
        </span>
      ))}
    </ListRow>
  )
}
