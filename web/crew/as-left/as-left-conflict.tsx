import { useState } from 'react'
import { AsLeftRecord, type Job, PutAsLeftBody } from '#contract/jobs.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { answerConflict, type OutboxItem, setAside } from '../../api/outbox.ts'
import type { Fields } from '../../record/merge-fields.ts'
import { SideBySide } from '../../record/side-by-side.tsx'
import { bodyOfInput } from '../work/body-of-input.ts'
import { InTheWay } from '../work/in-the-way.tsx'
import { asLeftBases } from './as-left-draft.ts'
import { fieldsOfAsLeft, formFields, formShape } from './as-left-fields.ts'
import { checkAsLeft } from './check-as-left.ts'

interface Props {
  /** Refused, since somebody else said something newer meanwhile. */
  readonly item: OutboxItem
  readonly job: Job
  readonly entries: readonly JobEntry[]
}

/** What the crew said beside what somebody else said: the person chooses field by field. */
export function AsLeftConflict({ item, job, entries }: Props) {
  const base = asLeftBases.use(item.id)
  const [problem, setProblem] = useState<string | null>(null)
  const mine = PutAsLeftBody.safeParse(bodyOfInput(item.input)).data
  const theirs = AsLeftRecord.safeParse(item.current).data
  if (!mine || !theirs) {
    return (
      <InTheWay
        sentences={[
          item.problem ?? 'Somebody else changed what is left at the poles. Connect to see it.',
        ]}
      />
    )
  }
  const shape = formShape(job.plan, mine.asLeft, theirs.asLeft)
  const save = async (merged: Fields) => {
    const checked = checkAsLeft(shape, merged, entries)
    if (!checked.asLeft) {
      setProblem(Object.values(checked.faults).join(' '))
      return
    }
    asLeftBases.keep(item.id, fieldsOfAsLeft(theirs.asLeft))
    await answerConflict(item.id, {
      params: { jobId: job.id },
      body: { version: theirs.version, asLeft: checked.asLeft, deviceAt: mine.deviceAt },
    })
  }
  return (
    <div ref={comeIntoView}>
      <SideBySide
        thing={{ subject: 'as-left', subjectId: job.id, feederId: job.feederId }}
        version={theirs.version}
        what="what is left at the poles"
        fields={formFields(shape)}
        base={base}
        mine={fieldsOfAsLeft(mine.asLeft)}
        theirs={fieldsOfAsLeft(theirs.asLeft)}
        onSave={(merged) => void save(merged)}
        onDropMine={() => void setAside(item.id)}
      />
      {problem && <InTheWay sentences={[problem]} />}
    </div>
  )
}

/** It may appear while the person is far down a form. */
function comeIntoView(element: HTMLElement | null): void {
  element?.scrollIntoView({ block: 'start' })
}
