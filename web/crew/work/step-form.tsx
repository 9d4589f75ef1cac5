import { type FormEvent, useState } from 'react'
import type { JobEntry, StepDone, StepLeftOut } from '#domain/jobs/job-entry.ts'
import { type JobRun, offerEntry, type StepPlace } from '#domain/jobs/job-run.ts'
import { judgeStep } from '#domain/jobs/judge-reading.ts'
import type { Asked } from '#domain/jobs/step-sequence.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { AskedField } from './asked-field.tsx'
import { BypassCheck } from './bypass-check.tsx'
import { beginEntry, enterEntry } from './field-job.ts'
import { InTheWay } from './in-the-way.tsx'
import { LeaveOutForm, openToLeaveOut } from './leave-out-form.tsx'
import { SignFields } from './sign-fields.tsx'
import { signal } from './signals.ts'
import {
  draftKey,
  EMPTY_STEP_DRAFT,
  openPoints,
  readDraft,
  type StepDraft,
  stepDrafts,
} from './step-draft.ts'
import { stepInWords } from './step-words.ts'
import { whyNotKept } from './why-not-kept.ts'

interface Props {
  readonly jobId: string
  readonly poleId: string
  readonly run: JobRun
  readonly place: StepPlace
  readonly onEntered: () => void
  /** Left out where the person may not give the job back. */
  readonly onGiveBack?: (asked: Asked) => void
}

/** What the present step asks for; judged as it is typed, entered by one button. */
export function StepForm({ jobId, poleId, run, place, onEntered, onGiveBack }: Props) {
  const { step, phase } = place
  const key = draftKey({ jobId, poleId, stepId: step.id, phase })
  const draft = stepDrafts.use(key) ?? EMPTY_STEP_DRAFT
  const change = (part: Partial<StepDraft>) => stepDrafts.keep(key, { ...draft, ...part })
  const { values, faults } = readDraft(step, draft)
  const verdicts = judgeStep(run, poleId, step, phase, values)
  const passesWithRemark = verdicts.some(({ verdict, isStop }) => verdict !== 'good' && !isStop)
  const common = { stepId: step.id, ...(phase && { phase }), signedBy: draft.signedBy }
  const entering = useEntering(jobId, run, () => {
    stepDrafts.keep(key, null)
    onEntered()
  })
  if (draft.isLeavingOut) {
    const leftOut: Offered = {
      open: openToLeaveOut(step, draft),
      entry: { ...common, kind: 'step left out', why: draft.why.trim() },
      what: stepInWords('left out', step, phase, poleId),
    }
    return (
      <LeaveOutForm
        step={step}
        draft={draft}
        inTheWay={entering.inTheWay(poleId, leftOut)}
        onChange={change}
        onEnter={() => void entering.enter(poleId, leftOut)}
      />
    )
  }
  const remark = draft.remark.trim()
  const done: Offered = {
    open: openPoints(step, draft),
    entry: { ...common, kind: 'step done', values: { ...values }, ...(remark && { remark }) },
    what: stepInWords('done', step, phase, poleId),
  }
  const enterDone = (event: FormEvent) => {
    event.preventDefault()
    void entering.enter(poleId, done)
  }
  return (
    <form className="stack" aria-label="This step" noValidate onSubmit={enterDone}>
      {step.asks.map((asked) => (
        <AskedField
          key={asked.id}
          asked={asked}
          typed={draft.values[asked.id]}
          fault={faults[asked.id]}
          verdict={verdicts.find(({ askId }) => askId === asked.id)}
          onType={(typed) => change({ values: { ...draft.values, [asked.id]: typed } })}
          onGiveBack={onGiveBack}
        />
      ))}
      {run.plan.bank && step.action === 'prove neutral' && (
        <BypassCheck
          jobId={jobId}
          bank={run.plan.bank}
          step={step}
          values={values}
          verdicts={verdicts}
        />
      )}
      <RemarkField
        isAskedFor={passesWithRemark}
        remark={draft.remark}
        onType={(remark) => change({ remark })}
      />
      <SignFields
        signer={step.signedBy}
        signedBy={draft.signedBy}
        onSign={(signedBy) => change({ signedBy })}
      />
      <InTheWay sentences={entering.inTheWay(poleId, done)} isHoldPoint={step.isHoldPoint} />
      <Button type="submit" look="main" className="work-main" disabled={entering.isKeeping}>
        {entering.isKeeping ? 'Keeping it on the device…' : 'Done, next step'}
      </Button>
      {step.mayBeLeftOut && (
        <Button onClick={() => change({ isLeavingOut: true })}>Leave this step out</Button>
      )}
    </form>
  )
}

type WithoutStart<Entry> = Entry extends JobEntry ? Omit<Entry, 'id' | 'at' | 'pole'> : never

/** What would be entered as the form stands now. */
interface Offered {
  /** What is still to be filled in, in sentences. */
  readonly open: readonly string[]
  readonly entry: WithoutStart<StepDone | StepLeftOut>
  /** As the outbox lists it. */
  readonly what: string
}

interface Entering {
  /** Once a try did not pass: why it would not pass as the form stands now. */
  readonly inTheWay: (poleId: string, offered: Offered) => readonly string[]
  readonly isKeeping: boolean
  readonly enter: (poleId: string, offered: Offered) => Promise<void>
}

/** Enters only what the run allows; what it does not stays in the form, with the reasons. */
function useEntering(jobId: string, run: JobRun, onEntered: () => void): Entering {
  const [isTried, setIsTried] = useState(false)
  const [notKept, setNotKept] = useState<readonly string[]>([])
  const [isKeeping, setIsKeeping] = useState(false)
  const enter = async (poleId: string, offered: Offered) => {
    const entry = { ...beginEntry(poleId), ...offered.entry }
    const isAllowed = whyNot(run, entry, offered.open).length === 0
    setIsTried(!isAllowed)
    if (!isAllowed) {
      signal('stopped')
      return
    }
    setIsKeeping(true)
    const problem = await whyNotKept(enterEntry(jobId, entry, offered.what))
    setIsKeeping(false)
    setNotKept(problem)
    signal(problem.length > 0 ? 'stopped' : 'passed')
    if (problem.length === 0) onEntered()
  }
  const inTheWay = (poleId: string, { entry, open }: Offered) =>
    isTried ? whyNot(run, { ...beginEntry(poleId), ...entry }, open) : notKept
  return { inTheWay, isKeeping, enter }
}

function whyNot(run: JobRun, entry: JobEntry, open: readonly string[]): readonly string[] {
  if (open.length > 0) return open
  const offer = offerEntry(run, entry)
  return offer.ok ? [] : offer.why
}

interface RemarkProps {
  readonly isAskedFor: boolean
  readonly remark: string
  readonly onType: (remark: string) => void
}

function RemarkField({ isAskedFor, remark, onType }: RemarkProps) {
  const [isOpen, setIsOpen] = useState(remark !== '')
  if (!isAskedFor && !isOpen) {
    return <Button onClick={() => setIsOpen(true)}>Add a remark to this step</Button>
  }
  return (
    <Field
      label={isAskedFor ? 'Remark: why it is right to go on' : 'Remark'}
      hint={
        isAskedFor
          ? 'Needed, since something is not as it should be. Say what was checked.'
          : undefined
      }
    >
      {(control) => (
        <textarea
          {...control}
          className="input work-input"
          rows={3}
          maxLength={2000}
          value={remark}
          onChange={({ target }) => onType(target.value)}
        />
      )}
    </Field>
  )
}
