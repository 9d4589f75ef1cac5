import { type FormEvent, useState } from 'react'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { type JobRun, offerEntry, type StepPlace } from '#domain/jobs/job-run.ts'
import { judgeStep } from '#domain/jobs/judge-reading.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { AskedField } from './asked-field.tsx'
import { BypassCheck } from './bypass-check.tsx'
import { beginEntry, enterEntry } from './field-job.ts'
import { InTheWay } from './in-the-way.tsx'
import { LeaveOutForm } from './leave-out-form.tsx'
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
}

/** What the present step asks for; judged as it is typed, entered by one button. */
export function StepForm({ jobId, poleId, run, place, onEntered }: Props) {
  const { step, phase } = place
  const key = draftKey({ jobId, poleId, stepId: step.id, phase })
  const draft = stepDrafts.use(key) ?? EMPTY_STEP_DRAFT
  const change = (part: Partial<StepDraft>) => stepDrafts.keep(key, { ...draft, ...part })
  const { values, faults } = readDraft(step, draft)
  const verdicts = judgeStep(run, poleId, step, phase, values)
  const passesWithRemark = verdicts.some(({ verdict, isStop }) => verdict !== 'good' && !isStop)
  const entering = useEntering(jobId, run, () => {
    stepDrafts.keep(key, null)
    onEntered()
  })
  const enterDone = (event: FormEvent) => {
    event.preventDefault()
    const entry: JobEntry = {
      ...beginEntry(poleId),
      kind: 'step done',
      stepId: step.id,
      ...(phase && { phase }),
      values: { ...values },
      signedBy: draft.signedBy,
      ...(draft.remark.trim() && { remark: draft.remark.trim() }),
    }
    void entering.enter(openPoints(step, draft), entry, stepInWords('done', step, phase, poleId))
  }
  if (draft.isLeavingOut) {
    return (
      <LeaveOutForm
        step={step}
        draft={draft}
        inTheWay={entering.inTheWay}
        onChange={change}
        onEnter={(open) => {
          const entry: JobEntry = {
            ...beginEntry(poleId),
            kind: 'step left out',
            stepId: step.id,
            ...(phase && { phase }),
            why: draft.why.trim(),
            signedBy: draft.signedBy,
          }
          void entering.enter(open, entry, stepInWords('left out', step, phase, poleId))
        }}
      />
    )
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
        />
      ))}
      {run.plan.bank && step.action === 'prove neutral' && (
        <BypassCheck jobId={jobId} bank={run.plan.bank} step={step} values={values} />
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
      <InTheWay sentences={entering.inTheWay} isHoldPoint={step.isHoldPoint} />
      <Button type="submit" look="main" className="work-main" disabled={entering.isKeeping}>
        {entering.isKeeping ? 'Keeping it on the device…' : 'Done, next step'}
      </Button>
      {step.mayBeLeftOut && (
        <Button onClick={() => change({ isLeavingOut: true })}>Leave this step out</Button>
      )}
    </form>
  )
}

interface Entering {
  /** Why the last try did not pass; empty where it did or none was made. */
  readonly inTheWay: readonly string[]
  readonly isKeeping: boolean
  readonly enter: (open: readonly string[], entry: JobEntry, what: string) => Promise<void>
}

/** Enters only what the run allows; what it does not stays in the form, with the reasons. */
function useEntering(jobId: string, run: JobRun, onEntered: () => void): Entering {
  const [inTheWay, setInTheWay] = useState<readonly string[]>([])
  const [isKeeping, setIsKeeping] = useState(false)
  const enter = async (open: readonly string[], entry: JobEntry, what: string) => {
    const offer = open.length > 0 ? null : offerEntry(run, entry)
    const why = offer === null ? open : offer.ok ? [] : offer.why
    setInTheWay(why)
    if (why.length > 0) {
      signal('stopped')
      return
    }
    setIsKeeping(true)
    const problem = await whyNotKept(enterEntry(jobId, entry, what))
    setIsKeeping(false)
    setInTheWay(problem)
    signal(problem.length > 0 ? 'stopped' : 'passed')
    if (problem.length === 0) onEntered()
  }
  return { inTheWay, isKeeping, enter }
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
