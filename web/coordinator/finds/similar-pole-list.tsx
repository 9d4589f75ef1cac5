import { useMemo } from 'react'
import { likenessOf, SIMILAR_WITHIN_M, similarPoles } from '#domain/avian/account/similar-poles.ts'
import { showPlace } from '../../state/camera.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { counted, distance, inWords, length, listed } from '../../state/format.ts'
import { hoverPole } from '../../state/hover.ts'
import { select, useSelection } from '../../state/selection.ts'
import { List, ListRow } from '../../ui/list.tsx'
import { EmptyNote } from '../../ui/state-note.tsx'

/** Poles with the same framing and equipment near a find, to be looked at as well. */
export function SimilarPoleList({ pole }: { readonly pole: string }) {
  const { feeder, poleById } = useFeeder()
  const { units } = useSelection()
  const found = useMemo(() => similarPoles(feeder, pole), [feeder, pole])
  const { framing, equipment } = likenessOf(feeder, pole)
  const within = inWords(distance(SIMILAR_WITHIN_M, units))
  const alike = `${framing ?? 'framing not recorded'}; ${equipment.length > 0 ? listed(equipment) : 'no equipment'}`
  return (
    <section className="stack" aria-label="Similar poles nearby">
      <h4>Similar poles nearby</h4>
      <p className="soft small">
        {counted(found.length, 'pole')} within {within} framed and equipped as pole {pole} ({alike}
        ). The distance is an assumption. Look at them before a bird does.
      </p>
      {found.length === 0 ? (
        <EmptyNote what="No other pole nearby is recorded as framed and equipped like this one. That may be the record, not the line." />
      ) : (
        <List label={`${counted(found.length, 'similar pole')} nearby, nearest first`}>
          {found.map(({ poleId, distanceM }) => (
            <ListRow
              key={poleId}
              onPreview={(isOn) => hoverPole(isOn ? poleId : null)}
              onChoose={() => {
                select({ pole: poleId, view: null })
                const at = poleById.get(poleId)?.at
                if (at) showPlace(at)
              }}
            >
              <span>
                Pole {poleId}, {inWords(length(distanceM, units))} away
              </span>
            </ListRow>
          ))}
        </List>
      )}
    </section>
  )
}
