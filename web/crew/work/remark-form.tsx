import { type FormEvent, useState } from 'react'
import { z } from 'zod'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { beginEntry, enterEntry } from './field-job.ts'
import { keptOnDevice } from './kept-on-device.ts'
import { shortened } from './step-words.ts'
import { whyNotKept } from './why-not-kept.ts'

const drafts = keptOnDevice('remark-draft', z.string())

interface Props {
  readonly jobId: string
  readonly poleId: string
}

/** What is entered is never changed; what was wrong or done otherwise is added here. */
export function RemarkForm({ jobId, poleId }: Props) {
  const key = `${jobId}~${poleId}`
  const text = drafts.use(key) ?? ''
  const [outcome, setOutcome] = useState('')
  const enter = async (kind: 'remark' | 'deviation') => {
    if (text.trim() === '') {
      setOutcome('Write it first.')
      return
    }
    const said = text.trim()
    const entry: JobEntry = { ...beginEntry(poleId), kind, text: said }
    const what = kind === 'remark' ? 'Remark' : 'Done otherwise'
    const entered = enterEntry(jobId, entry, `${what} at pole ${poleId}: ${shortened(said)}`)
    const problem = await whyNotKept(entered)
    if (problem.length === 0) drafts.keep(key, null)
    setOutcome(problem.join(' ') || 'Entered.')
  }
  return (
    <form
      className="stack"
      aria-label="Say what was different"
      onSubmit={(event: FormEvent) => {
        event.preventDefault()
        void enter('deviation')
      }}
    >
      <Field
        label="What was wrong, or done otherwise than planned"
        hint="No entry can be undone, so that the record stays true. Say here what was wrong with one, or what was done otherwise; the supervisor reads deviations first."
      >
        {(control) => (
          <textarea
            {...control}
            className="input work-input"
            rows={3}
            maxLength={4000}
            value={text}
            onChange={({ target }) => {
              drafts.keep(key, target.value)
              setOutcome('')
            }}
          />
        )}
      </Field>
      <div className="work-pair">
        <Button type="submit">Enter as deviation</Button>
        <Button onClick={() => void enter('remark')}>Enter as remark</Button>
      </div>
      <p role="status">{outcome}</p>
    </form>
  )
}
