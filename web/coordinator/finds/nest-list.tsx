import { useState } from 'react'
import type { NestRecord } from '#contract/nests.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { nestBuffer } from '#domain/avian/nests/buffer-sets.ts'
import { isDayInSeason } from '#domain/avian/nests/day-in-season.ts'
import { useMay } from '../../api/account.ts'
import { useNestChanges } from '../../api/nests.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { counted } from '../../state/format.ts'
import { Button } from '../../ui/button.tsx'
import { EmptyNote } from '../../ui/state-note.tsx'
import { GoneNote, useGone } from './gone-note.tsx'
import { NestForm } from './nest-form.tsx'
import { NestRow } from './nest-row.tsx'
import { showFinds, useFindsView } from './show-finds.ts'
import { useOrphan } from './use-orphan.ts'

interface Props {
  readonly nests: readonly NestRecord[]
  readonly settings: BirdSettings | undefined
  readonly today: string
}

/** Nests, those whose season it is first. */
export function NestList({ nests, settings, today }: Props) {
  const { restore } = useNestChanges(useFeeder().feeder.header.id)
  const view = useFindsView()
  const mayRecord = useMay('record or change a nest')
  const gone = useGone<NestRecord>()
  const [isInSeasonOnly, setIsInSeasonOnly] = useState(false)
  const edited = view?.open === 'edit nest' ? view.id : null
  const orphan = useOrphan(nests, edited)
  const sorted = withSeasons(nests, settings, today)
  const shown = isInSeasonOnly ? sorted.filter(({ isInSeason }) => isInSeason) : sorted
  if (nests.length === 0 && gone.list.length === 0 && !orphan) {
    return (
      <EmptyNote
        what={
          mayRecord
            ? 'No nest is recorded near this feeder. Record one, or bring nests.geojson along.'
            : 'No nest is recorded near this feeder.'
        }
      />
    )
  }
  return (
    <>
      <div className="row">
        <span className="soft small" role="status">
          {shown.length} of {counted(nests.length, 'nest')}, those in season today first.
        </span>
        <Button isPressed={isInSeasonOnly} onClick={() => setIsInSeasonOnly(!isInSeasonOnly)}>
          Only in season
        </Button>
      </div>
      {gone.list.map((nest) => (
        <GoneNote
          key={nest.id}
          what={`nest, ${nest.species}`}
          restore={restore}
          deleted={nest}
          onDone={() => gone.forget(nest)}
        />
      ))}
      <ul className="item-list">
        {shown.map(({ nest, buffer, isInSeason }) => (
          <li key={nest.id}>
            {edited === nest.id && mayRecord ? (
              <EditNest nest={nest} />
            ) : (
              <NestRow
                nest={nest}
                buffer={buffer}
                isInSeason={isInSeason}
                today={today}
                isOpen={view?.open === 'nest' && view.id === nest.id}
                onDeleted={gone.add}
              />
            )}
          </li>
        ))}
        {orphan && mayRecord && (
          <li key={orphan.id}>
            <EditNest nest={orphan} />
          </li>
        )}
      </ul>
    </>
  )
}

function EditNest({ nest }: { readonly nest: NestRecord }) {
  const open = () => showFinds({ open: 'nest', id: nest.id })
  return <NestForm nest={nest} onDone={open} onSaved={open} />
}

function withSeasons(
  nests: readonly NestRecord[],
  settings: BirdSettings | undefined,
  today: string,
) {
  return nests
    .map((nest) => {
      const buffer = nestBuffer(nest, settings)
      return { nest, buffer, isInSeason: isDayInSeason(today, buffer.from, buffer.to) }
    })
    .sort(
      (a, b) =>
        Number(b.isInSeason) - Number(a.isInSeason) || a.nest.species.localeCompare(b.nest.species),
    )
}
