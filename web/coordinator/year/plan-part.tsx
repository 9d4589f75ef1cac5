import { useEffect, useMemo } from 'react'
import { useJobs } from '../../api/jobs.ts'
import { useProposals } from '../../api/proposals.ts'
import { counted, listed, usd } from '../../state/format.ts'
import { localToday } from '../../state/today.ts'
import { Button } from '../../ui/button.tsx'
import { EmptyNote, ErrorNote } from '../../ui/state-note.tsx'
import { lookAtProgramme } from '../shown-programme.ts'
import type { BirdRecord } from '../use-bird-record.ts'
import { BudgetSlider } from './budget-slider.tsx'
import { KeepForm } from './keep-form.tsx'
import { newChoices, type PlanChoices, planChoices } from './plan-choices.ts'
import { PlanFields } from './plan-fields.tsx'
import { ProgrammeLine } from './programme-line.tsx'
import { ProgrammeView } from './programme-view.tsx'
import { type Plan, usePlan } from './use-plan.ts'
import { waitingPoles } from './waiting-poles.ts'

/** Budget, season and crews, and what is best done with them. */
export function PlanPart({ record }: { readonly record: BirdRecord }) {
  const feederId = record.feeder.header.id
  const kept = planChoices.use(feederId)
  const choices = useMemo(() => kept ?? newChoices(localToday()), [kept])
  const change = (part: Partial<PlanChoices>) => planChoices.keep(feederId, { ...choices, ...part })
  const { data: proposals, error: proposalsFault } = useProposals(feederId)
  const { data: jobs, error: jobsFault } = useJobs(feederId)
  const fault = proposalsFault ?? jobsFault
  const waiting = useMemo(() => waitingPoles(proposals ?? [], jobs ?? []), [proposals, jobs])
  const request = useMemo(
    () =>
      proposals && jobs && choices.to >= choices.from
        ? { ...choices, waitingForJob: waiting }
        : null,
    [choices, proposals, jobs, waiting],
  )
  const plan = usePlan(record, request)
  const { programme } = plan
  useEffect(() => {
    if (programme) lookAtProgramme({ feederId, name: 'the plan being looked at', programme })
    return () => lookAtProgramme(null)
  }, [feederId, programme])
  return (
    <section className="stack" aria-label="Plan the year">
      <h3>Plan the year</h3>
      <BudgetSlider
        choices={choices}
        programme={programme}
        onChange={(budgetUsd) => change({ budgetUsd })}
      />
      <details className="record-fold">
        <summary>
          {choices.from} to {choices.to}, {counted(choices.crews, 'crew')},{' '}
          {usd(choices.visitCostUsd)} a visit
        </summary>
        <PlanFields choices={choices} onChange={change} />
      </details>
      {fault && (
        <ErrorNote
          title="Which poles wait for a job is not known, so nothing is planned."
          error={fault}
        />
      )}
      {waiting.length > 0 && <WaitingLine poles={waiting} />}
      <PlanState plan={plan} />
      {programme && (
        <>
          <ProgrammeLine programme={programme} />
          <KeepForm programme={programme} />
          <ProgrammeView programme={programme} name="plan" programmeId={null} />
        </>
      )}
    </section>
  )
}

function WaitingLine({ poles }: { readonly poles: readonly string[] }) {
  return (
    <p className="soft">
      Left out, since {poles.length === 1 ? 'it waits' : 'they wait'} for an open job or for that of
      a kept proposal, which carries the measures: {listed(poles)}.
    </p>
  )
}

function PlanState({ plan }: { readonly plan: Plan }) {
  const { isRunning, progress, error, wasCancelled, cancel, again } = plan
  if (isRunning) {
    return (
      <div className="state-note" role="status">
        <span>
          {progress ? `${progress.what}: ${progress.done} of ${progress.of}…` : 'Working it out…'}
        </span>
        <Button onClick={cancel}>Cancel</Button>
      </div>
    )
  }
  if (error) {
    return <ErrorNote title="No programme came of it." error={error} onRetry={again} />
  }
  if (!wasCancelled) return null
  return (
    <EmptyNote what="Cancelled; what is shown is of the request before.">
      <Button onClick={again}>Work it out</Button>
    </EmptyNote>
  )
}
