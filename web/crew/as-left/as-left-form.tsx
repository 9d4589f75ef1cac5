import { type FormEvent, useEffect, useRef, useState } from 'react'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import type { Phase } from '#domain/units/phases.ts'
import { useMay } from '../../api/account.ts'
import { useOutbox } from '../../api/outbox.ts'
import { SideBySide } from '../../record/side-by-side.tsx'
import { useFullSheet } from '../../state/sheet-height.ts'
import { localToday } from '../../state/today.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { Button } from '../../ui/button.tsx'
import { ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { enterAsLeft, useFieldJob } from '../work/field-job.ts'
import { FieldMoves } from '../work/field-moves.tsx'
import type { FieldJob } from '../work/fold-field-job.ts'
import { InTheWay } from '../work/in-the-way.tsx'
import { whyNotKept } from '../work/why-not-kept.ts'
import '../work/work.css'
import './as-left.css'
import { AsLeftConflict } from './as-left-conflict.tsx'
import { type AsLeftDraft, asLeftBases, asLeftDrafts } from './as-left-draft.ts'
import { type FormShape, fieldsOfAsLeft, formFields, formShape } from './as-left-fields.ts'
import { AsLeftSaid } from './as-left-said.tsx'
import { beginAsLeft } from './begin-as-left.ts'
import { checkAsLeft, type Faults } from './check-as-left.ts'
import { FaultLinks } from './fault-links.tsx'
import { MeasuresPart } from './measures-part.tsx'
import { SettingsPart } from './settings-part.tsx'
import { SignPart } from './sign-part.tsx'
import { countUnit, phaseOfField } from './unit-count.ts'
import { UnitsPart } from './units-part.tsx'

/** What stands at the poles of a job when the crew leaves. */
export function AsLeftForm({ jobId }: { readonly jobId: string }) {
  const { field, error, refetch } = useFieldJob(jobId)
  const outbox = useOutbox({ jobId })
  useFullSheet()
  if (error) return <ErrorNote title="The job did not come" error={error} onRetry={refetch} />
  if (!field) return <LoadingNote what="Opening the job…" />
  const conflicts = outbox.filter(({ name, state }) => name === 'putAsLeft' && state === 'conflict')
  const refused = outbox.filter(({ name, state }) => name === 'putAsLeft' && state === 'refused')
  return (
    <article className="work stack" aria-label="As left">
      <ArrivingTitle of={jobId} className="step-place">
        As left: {field.job.title}
      </ArrivingTitle>
      {conflicts.map((item) => (
        <AsLeftConflict key={item.id} item={item} job={field.job} entries={entriesOf(field)} />
      ))}
      {refused.map(({ id, problem }) => (
        <InTheWay key={id} sentences={[problem ?? 'The server did not take it.']} />
      ))}
      {conflicts.length === 0 && <Writing field={field} />}
    </article>
  )
}

function Writing({ field }: { readonly field: FieldJob }) {
  const { job, asLeft } = field
  const draft = asLeftDrafts.use(job.id)
  const mayWork = useMay('work a job in the field')
  const shape = formShape(job.plan, asLeft?.asLeft ?? null)
  if (job.state !== 'in the field' && !asLeft) {
    return <p>It is filled in once the work has been started.</p>
  }
  if (!mayWork && !asLeft) return <p>The crew has not said yet what stands there.</p>
  if (mayWork && (draft || !asLeft)) {
    const opened = draft ?? openedDraft(field, shape)
    return <Form key={job.id} field={field} shape={shape} draft={opened} />
  }
  if (!asLeft) return null
  return (
    <>
      <AsLeftSaid fields={fieldsOfAsLeft(asLeft.asLeft)} of={shape} standing={asLeft.standing} />
      {mayWork && (job.state === 'in the field' || job.state === 'work done') && (
        <Button onClick={() => asLeftDrafts.keep(job.id, openedDraft(field, shape))}>
          Change what is said here
        </Button>
      )}
      <FieldMoves field={field} />
    </>
  )
}

/** What the form begins with: what was said last, else the plan and the readings of the steps. */
function openedDraft(field: FieldJob, shape: FormShape): AsLeftDraft {
  const { job, asLeft, keptAsLeft } = field
  const version = keptAsLeft?.version ?? 0
  if (asLeft) {
    const said = fieldsOfAsLeft(asLeft.asLeft)
    return { fields: said, version, base: said }
  }
  return {
    fields: beginAsLeft(job.plan, shape, entriesOf(field), localToday()),
    version,
    base: null,
  }
}

const entriesOf = ({ entries }: FieldJob) => entries.map(({ entry }) => entry)

/** How the bank stands at the end, where that is not plain from the form. */
const ENDS: Partial<Readonly<Record<JobKind, string>>> = {
  'take a bank out of service':
    'The bank is left bypassed: taps and counters are recorded as they were left. Its settings are given when it is returned to service.',
  'return a bank to service':
    'The bank is left in service: the settings read back at the controls, taps and counters go into the record.',
}

interface FormProps {
  readonly field: FieldJob
  readonly shape: FormShape
  readonly draft: AsLeftDraft
}

function Form({ field, shape, draft }: FormProps) {
  const { job, keptAsLeft, asLeft } = field
  const { fields } = draft
  const [isTried, setIsTried] = useState(false)
  const [problem, setProblem] = useState<readonly string[]>([])
  const keep = (next: AsLeftDraft) => asLeftDrafts.keep(job.id, next)
  const type = (change: AsLeftDraft['fields']) =>
    keep({ ...draft, fields: { ...fields, ...change } })
  const checked = checkAsLeft(shape, fields, entriesOf(field))
  const faults: Faults = isTried && !checked.asLeft ? checked.faults : {}
  const [shown, setShown] = useState(() => firstOpenUnit(shape, fields))
  const { ref, goTo } = useFieldFocus((name) => {
    const phase = phaseOfField(shape, name)
    if (phase) setShown(phase)
  })
  const enter = async (event: FormEvent) => {
    event.preventDefault()
    setIsTried(!checked.asLeft)
    if (!checked.asLeft) return
    const entering = enterAsLeft(job.id, checked.asLeft, draft.version)
    const why = await whyNotKept(entering)
    setProblem(why)
    if (why.length > 0) return
    asLeftBases.keep((await entering).id, draft.base)
    asLeftDrafts.keep(job.id, null)
  }
  if (keptAsLeft && keptAsLeft.version > draft.version) {
    const theirs = fieldsOfAsLeft(keptAsLeft.asLeft)
    const newest = { version: keptAsLeft.version, base: theirs }
    return (
      <SideBySide
        thing={{ subject: 'as-left', subjectId: job.id, feederId: job.feederId }}
        version={keptAsLeft.version}
        what="what is left at the poles"
        fields={formFields(formShape(job.plan, keptAsLeft.asLeft, asLeft?.asLeft ?? null))}
        base={draft.base}
        mine={fields}
        theirs={theirs}
        onSave={(merged) => keep({ fields: merged, ...newest })}
        onDropMine={() => asLeftDrafts.keep(job.id, null)}
      />
    )
  }
  const part = { fields, faults, onType: type }
  const { bank } = job.plan
  return (
    <form
      ref={ref}
      className="stack"
      aria-label="As left"
      noValidate
      onSubmit={(event) => void enter(event)}
    >
      <p>{ENDS[job.plan.kind]} Kept on this device as you type.</p>
      {shown && (
        <UnitsPart plan={job.plan} shape={shape} shown={shown} onShow={setShown} {...part} />
      )}
      {bank && shape.hasSettings && <SettingsPart bank={bank} {...part} />}
      <MeasuresPart
        plan={job.plan}
        measures={shape.measures}
        entries={entriesOf(field)}
        {...part}
      />
      <SignPart {...part} />
      <FaultLinks shape={shape} faults={faults} onGo={goTo} />
      <InTheWay sentences={problem} />
      <Button type="submit" look="main" className="work-main">
        Enter as left
      </Button>
      {asLeft && (
        <Button onClick={() => asLeftDrafts.keep(job.id, null)}>Give up the changes</Button>
      )}
    </form>
  )
}

/** The unit that is not complete yet, else the first; null where the job has none. */
function firstOpenUnit(shape: FormShape, fields: AsLeftDraft['fields']): Phase | null {
  const isOpen = (phase: Phase) => {
    const { filled, all } = countUnit(shape, phase, fields, {})
    return filled < all
  }
  return shape.phases.find(isOpen) ?? shape.phases[0] ?? null
}

/**
 * Leads to a field of the form by its name, once the part that holds it is shown.
 *
 * @param show brings that part onto the page
 */
function useFieldFocus(show: (name: string) => void) {
  const ref = useRef<HTMLFormElement>(null)
  const [goal, setGoal] = useState<{ readonly name: string } | null>(null)
  useEffect(() => {
    const found = goal && ref.current?.elements.namedItem(goal.name)
    const field = found instanceof RadioNodeList ? found[0] : found
    if (!(field instanceof HTMLElement)) return
    const target = field instanceof HTMLFieldSetElement ? field.querySelector('button') : field
    target?.focus({ preventScroll: true })
    target?.scrollIntoView({ block: 'center' })
  }, [goal])
  const goTo = (name: string) => {
    show(name)
    setGoal({ name })
  }
  return { ref, goTo }
}
