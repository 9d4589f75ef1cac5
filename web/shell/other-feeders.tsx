import { useFeederList } from '../api/feeders.ts'
import { select } from '../state/selection.ts'
import { List, ListRow } from '../ui/list.tsx'

interface Props {
  /** Ids of those to offer; all where left out. */
  readonly among?: ReadonlySet<string>
}

/** The feeders that can be opened in place of one that cannot. */
export function OtherFeeders({ among }: Props) {
  const list = (useFeederList().data ?? []).filter(({ id }) => !among || among.has(id))
  return (
    <List label="Feeders that can be opened">
      {list.map(({ id, name, nominalKv }) => (
        <ListRow key={id} onChoose={() => select({ feeder: id, view: null })}>
          {name}, {nominalKv} kV
        </ListRow>
      ))}
    </List>
  )
}
