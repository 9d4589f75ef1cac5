import { useState } from 'react'
import { useMay } from '../../api/account.ts'
import { HandOverForm } from '../../jobs/hand-over-form.tsx'
import { viewOfJob } from '../../jobs/job-view.ts'
import { polesInWords } from '../../jobs/job-words.ts'
import { useOpenJobsByPole } from '../../jobs/open-jobs.ts'
import { counted } from '../../state/format.ts'
import { hoverPole } from '../../state/hover.ts'
import { select } from '../../state/selection.ts'
import { localToday } from '../../state/today.ts'
import { Button } from '../../ui/button.tsx'
import { listedPoles } from '../list/listed-poles.ts'
import type { BirdRecord } from '../use-bird-record.ts'
import { type DueLook, dueLooks, MOST_POLES } from './due-poles.ts'

/** Poles whose guards, covers or perches are due for a look, and the step that sends a crew there. */
export function DueLooks({ record }: { readonly record: BirdRecord }) {
  const feederId = record.feeder.header.id
  const mayDraft = useMay('draft or change a job')
  const jobs = useOpenJobsByPole(feederId)
  const { free, handed } = dueLooks(listedPoles(record), jobs, localToday())
  const [leftOut, setLeftOut] = useState<ReadonlySet<string>>(new Set())
  const [isAsking, setIsAsking] = useState(false)
  const chosen = free
    .map(({ pole }) => pole)
    .filter((pole) => !leftOut.has(pole))
    .slice(0, MOST_POLES)
  if (free.length === 0 && handed === 0) return null
  return (
    <section className="stack" aria-label="Looks that are due">
      <h3>{counted(free.length, 'pole')} due for a look</h3>
      {handed > 0 && (
        <p className="soft">
          {counted(handed, 'more pole', 'more poles')} due stand in an open job.
        </p>
      )}
      {free.length > 0 && !isAsking && (
        <>
          <Choice free={free} leftOut={leftOut} onChange={setLeftOut} />
          {mayDraft && (
            <div>
              <Button disabled={chosen.length === 0} onClick={() => setIsAsking(true)}>
                Hand an inspection of {counted(chosen.length, 'pole')} to the crew
              </Button>
            </div>
          )}
        </>
      )}
      {isAsking && (
        <HandOverForm
          draftKey={`inspection~${feederId}~${chosen.join(' ')}`}
          what={`an inspection of ${polesInWords(chosen)}`}
          origin={{ kind: 'by hand', jobKind: 'inspection', poles: [...chosen] }}
          suggestedTitle={`Inspection of ${counted(chosen.length, 'pole')}`}
          onGiveUp={() => setIsAsking(false)}
          onDrafted={({ id }) => select({ view: viewOfJob(id) })}
        />
      )}
    </section>
  )
}

interface ChoiceProps {
  readonly free: readonly DueLook[]
  readonly leftOut: ReadonlySet<string>
  readonly onChange: (leftOut: ReadonlySet<string>) => void
}

function Choice({ free, leftOut, onChange }: ChoiceProps) {
  const toggle = (pole: string, isOn: boolean) => {
    const next = new Set(leftOut)
    if (isOn) next.delete(pole)
    else next.add(pole)
    onChange(next)
  }
  return (
    <details className="record-fold" open={free.length <= FEW}>
      <summary>Choose the poles</summary>
      {free.length > MOST_POLES && (
        <p className="soft">One job holds the first {MOST_POLES} that are chosen.</p>
      )}
      <ul>
        {free.map(({ pole, dueOn }) => (
          <li key={pole}>
            <label
              className="bird-check"
              onPointerEnter={() => hoverPole(pole)}
              onPointerLeave={() => hoverPole(null)}
            >
              <input
                type="checkbox"
                checked={!leftOut.has(pole)}
                onChange={({ target }) => toggle(pole, target.checked)}
              />
              Pole {pole}, due {dueOn}
            </label>
          </li>
        ))}
      </ul>
    </details>
  )
}

/** So many stand open to be chosen from. */
const FEW = 12
