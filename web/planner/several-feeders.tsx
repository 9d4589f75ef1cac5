import { type FormEvent, useState } from 'react'
import { useMay } from '../api/account.ts'
import { useFeederList } from '../api/feeders.ts'
import { useWorkChanges } from '../api/long-work.ts'
import { counted } from '../state/format.ts'
import { select, useSelection } from '../state/selection.ts'
import { openSheet } from '../state/sheet.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { useSuggestChoices } from './choices-store.ts'
import { type ChoiceFaults, requestOfChoices } from './suggest-choices.ts'
import { SuggestFields } from './suggest-fields.tsx'

/** One siting study for each of several feeders, all with the same choices. */
export function SeveralFeeders() {
  const { units } = useSelection()
  const [choices, keep] = useSuggestChoices()
  const [faults, setFaults] = useState<ChoiceFaults>({})
  const [chosen, setChosen] = useState<readonly string[]>([])
  const { studies } = useWorkChanges()
  const mayStudy = useMay('run a siting study')
  const submit = (event: FormEvent) => {
    event.preventDefault()
    const asked = requestOfChoices(choices, units)
    setFaults('faults' in asked ? asked.faults : {})
    if ('faults' in asked) return
    const body = { feederIds: [...chosen], request: asked.request }
    studies.mutate(body, { onSuccess: () => openSheet('work') })
  }
  return (
    <form className="stack planner" onSubmit={submit} noValidate>
      <div className="planner-head">
        <h2>Study several feeders</h2>
        <Button look="plain" onClick={() => select({ view: null })}>
          Back
        </Button>
      </div>
      <p>
        The studies run one after the other in the background. Each stands in the list of work, and
        opens like any other.
      </p>
      <FeederBoxes chosen={chosen} onChoose={setChosen} />
      <SuggestFields choices={choices} faults={faults} onChange={keep} />
      <div className="row">
        <Button
          type="submit"
          look="main"
          disabled={!mayStudy || chosen.length === 0 || studies.isPending}
        >
          {chosen.length === 0 ? 'Choose feeders' : `Study ${counted(chosen.length, 'feeder')}`}
        </Button>
      </div>
      {!mayStudy && <p className="soft">Suggesting poles is the planner’s and the supervisor’s.</p>}
      {studies.error && <ErrorNote title="The studies did not start." error={studies.error} />}
    </form>
  )
}

interface BoxesProps {
  readonly chosen: readonly string[]
  readonly onChoose: (chosen: readonly string[]) => void
}

function FeederBoxes({ chosen, onChoose }: BoxesProps) {
  const feeders = useFeederList().data ?? []
  const turn = (feederId: string, isOn: boolean) =>
    onChoose(isOn ? [...chosen, feederId] : chosen.filter((each) => each !== feederId))
  return (
    <fieldset className="planner-card stack">
      <legend>Feeders</legend>
      {feeders.map(({ id, name, poles }) => (
        <label key={id} className="planner-box">
          <input
            type="checkbox"
            checked={chosen.includes(id)}
            onChange={({ target }) => turn(id, target.checked)}
          />
          {name}, {counted(poles, 'pole')}
        </label>
      ))}
    </fieldset>
  )
}
