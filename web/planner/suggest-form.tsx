import { type FormEvent, useState } from 'react'
import { useMay } from '../api/account.ts'
import { useStartStudy } from '../api/studies.ts'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { useSuggestChoices } from './choices-store.ts'
import { type ChoiceFaults, requestOfChoices } from './suggest-choices.ts'
import { SuggestFields } from './suggest-fields.tsx'

/** The planner's next step, with its choices folded in. */
export function SuggestForm() {
  const { feeder } = useFeeder()
  const { units } = useSelection()
  const [choices, keep] = useSuggestChoices()
  const [faults, setFaults] = useState<ChoiceFaults>({})
  const [isOpen, setIsOpen] = useState(false)
  const start = useStartStudy(feeder.header.id)
  const mayStudy = useMay('run a siting study')
  const submit = (event: FormEvent) => {
    event.preventDefault()
    const asked = requestOfChoices(choices, units)
    setFaults('faults' in asked ? asked.faults : {})
    if ('faults' in asked) {
      setIsOpen(true)
      return
    }
    start.mutate(asked.request, {
      onSuccess: ({ studyId }) =>
        select({ study: studyId, choice: null, proposal: null, moved: null }),
    })
  }
  if (!mayStudy) {
    return <p className="soft">Suggesting poles is the planner’s and the supervisor’s.</p>
  }
  return (
    <form className="stack" onSubmit={submit} noValidate>
      <div className="row">
        <Button type="submit" look="main" disabled={start.isPending}>
          {start.isPending ? 'Asking the server…' : 'Suggest a pole'}
        </Button>
        <Button look="plain" aria-expanded={isOpen} onClick={() => setIsOpen(!isOpen)}>
          {isOpen ? 'Fewer choices' : 'Choices'}
        </Button>
      </div>
      {start.error && <ErrorNote title="The study did not start." error={start.error} />}
      {isOpen && <SuggestFields choices={choices} faults={faults} onChange={keep} />}
    </form>
  )
}
