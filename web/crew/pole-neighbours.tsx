import type { Pole } from '#domain/feeder/pole.ts'
import { wayTo } from '../jobs/places/bearing.ts'
import { lineNeighbours, type Neighbour } from '../jobs/places/line-neighbours.ts'
import { phaseWords } from '../state/equipment-in-words.ts'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { List, ListRow } from '../ui/list.tsx'
import { WayNeedle } from './way-needle.tsx'

/** The poles before and after this one, so that a crew at the wrong pole notices. */
export function PoleNeighbours({ pole }: { readonly pole: Pole }) {
  const { feeder, trace } = useFeeder()
  const { up, down, acrossOpen } = lineNeighbours(feeder, trace, pole.id)
  const isSource = feeder.header.source.pole === pole.id
  return (
    <section className="stack" aria-label="Next poles">
      <h3>Next poles</h3>
      <p>Check the tags of the poles next to it: if they differ, this is not pole {pole.id}.</p>
      <List label="Neighbours along the line">
        {up && <NeighbourRow from={pole} neighbour={up} where="Toward the source" />}
        {down.map((neighbour) => (
          <NeighbourRow
            key={neighbour.spanId}
            from={pole}
            neighbour={neighbour}
            where="Away from the source"
          />
        ))}
        {acrossOpen.map((neighbour) => (
          <NeighbourRow
            key={neighbour.spanId}
            from={pole}
            neighbour={neighbour}
            where="Across an open point; the far side may be energized from elsewhere"
          />
        ))}
      </List>
      {isSource && <p>This is the source of the feeder: the line starts here.</p>}
      {!isSource && !up && <p>Nothing on record feeds this pole. Do not take it for dead.</p>}
      {down.length === 0 && acrossOpen.length === 0 && <p>The line ends here.</p>}
    </section>
  )
}

interface RowProps {
  readonly from: Pole
  readonly neighbour: Neighbour
  readonly where: string
}

function NeighbourRow({ from, neighbour, where }: RowProps) {
  const { units } = useSelection()
  const pole = useFeeder().poleById.get(neighbour.poleId)
  if (!pole) return null
  return (
    <ListRow onChoose={() => select({ pole: pole.id })}>
      <span>
        {where}: <strong className="crew-pole-id">{pole.id}</strong>, {phaseWords(neighbour.phases)}
      </span>
      <WayNeedle way={wayTo(from.at, pole.at)} units={units} />
    </ListRow>
  )
}
