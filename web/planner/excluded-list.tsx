import { useState } from 'react'
import type { SiteResult } from '#domain/siting/site-result.ts'
import { showPlace } from '../state/camera.ts'
import { useFeeder } from '../state/feeder.tsx'
import { counted } from '../state/format.ts'
import { hoverPole } from '../state/hover.ts'
import { select } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { List, ListRow } from '../ui/list.tsx'

const AT_FIRST = 12

/** What was ruled out and why, to be narrowed by any word of a reason. */
export function ExcludedList({ result }: { readonly result: SiteResult }) {
  const { poleById } = useFeeder()
  const [text, setText] = useState('')
  const [isAll, setIsAll] = useState(false)
  const wanted = text.trim().toLowerCase()
  const found = result.excluded.filter(({ pole, reasons }) =>
    [pole, ...reasons].some((words) => words.toLowerCase().includes(wanted)),
  )
  const shown = isAll ? found : found.slice(0, AT_FIRST)
  const open = (pole: string) => {
    const at = poleById.get(pole)?.at
    select({ pole })
    if (at) showPlace(at)
  }
  return (
    <details className="planner-fold">
      <summary>What was ruled out: {counted(result.excluded.length, 'pole')}</summary>
      <div className="stack">
        <Field label="Only those with" hint={`${found.length} of ${result.excluded.length}`}>
          {(control) => (
            <input
              {...control}
              className="input"
              type="search"
              placeholder="a word of the reason, or a pole number"
              value={text}
              onChange={({ target }) => setText(target.value)}
            />
          )}
        </Field>
        <List label="Poles ruled out">
          {shown.map(({ pole, reasons }) => (
            <ListRow
              key={pole}
              onChoose={() => open(pole)}
              onPreview={(isOn) => hoverPole(isOn ? pole : null)}
            >
              <strong>{pole}</strong>
              <span>{reasons.join(' ')}</span>
            </ListRow>
          ))}
        </List>
        {shown.length < found.length && (
          <Button onClick={() => setIsAll(true)}>Show all {found.length}</Button>
        )}
      </div>
    </details>
  )
}
