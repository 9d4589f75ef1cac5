import { useFeederList } from '../api/feeders.ts'
import { select } from '../state/selection.ts'
import { List, ListRow } from '../ui/list.tsx'

/** The feeders that can be opened in place of one that cannot. */
export function OtherFeeders() {
  const list = useFeederList().data ?? []
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
