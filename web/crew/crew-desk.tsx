import { useOutbox } from '../api/outbox.ts'
import { RecordFoot } from '../record/record-foot.tsx'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { EmptyNote } from '../ui/state-note.tsx'
import { Tabs } from '../ui/tabs.tsx'
import { AsLeftForm } from './as-left/as-left-form.tsx'
import './crew.css'
import { CrewCautions } from './crew-cautions.tsx'
import { CrewPole } from './crew-pole.tsx'
import { type CrewView, crewViewOf } from './crew-view.ts'
import { JobPage } from './jobs/job-page.tsx'
import { JobsList } from './jobs/jobs-list.tsx'
import { openCrewView } from './open-crew-view.ts'
import { Outbox } from './outbox/outbox.tsx'
import { PoleFinder } from './pole-finder.tsx'
import { StepRunner } from './work/step-runner.tsx'

/** The crew's desk: the jobs, the pole they are at, the work at it, and what waits to be sent. */
export function CrewDesk() {
  const { view, pole } = useSelection()
  const shown = crewViewOf(view)
  if (shown.part === 'steps') {
    return (
      <div className="crew stack">
        <BackToJob jobId={shown.jobId} />
        <StepRunner key={shown.poleId} jobId={shown.jobId} poleId={shown.poleId} />
        <CrewCautions />
      </div>
    )
  }
  if (shown.part === 'as-left') {
    return (
      <div className="crew stack">
        <BackToJob jobId={shown.jobId} />
        <AsLeftForm jobId={shown.jobId} />
        <CrewCautions />
      </div>
    )
  }
  return (
    <div className="crew stack">
      <CrewTabs shown={shown} hasPole={pole !== null} />
      <CrewCautions />
      <RecordFoot />
    </div>
  )
}

function BackToJob({ jobId }: { readonly jobId: string }) {
  return (
    <Button className="crew-back" onClick={() => openCrewView({ part: 'job', jobId })}>
      Back to the job
    </Button>
  )
}

const TABS = ['jobs', 'pole finder', 'outbox'] as const
type Tab = (typeof TABS)[number]

interface TabsProps {
  readonly shown: CrewView
  readonly hasPole: boolean
}

function CrewTabs({ shown, hasPole }: TabsProps) {
  const waiting = useOutbox().filter(({ state }) => state !== 'kept').length
  const tabs: readonly { readonly id: Tab; readonly name: string }[] = [
    { id: 'jobs', name: 'Jobs' },
    { id: 'pole finder', name: 'Find a pole' },
    { id: 'outbox', name: waiting === 0 ? 'Send' : `Send (${waiting})` },
  ]
  return (
    <Tabs
      label="Crew work"
      tabs={tabs}
      chosen={tabOf(shown, hasPole)}
      onChoose={(part) => openCrewView({ part })}
    >
      <TabBody shown={shown} />
    </Tabs>
  )
}

/** A pole that is open by itself belongs to the finder, however it was chosen. */
function tabOf({ part }: CrewView, hasPole: boolean): Tab {
  if (part === 'outbox' || part === 'pole finder') return part
  return part === 'jobs' && hasPole ? 'pole finder' : 'jobs'
}

function TabBody({ shown }: { readonly shown: CrewView }) {
  const { poleById } = useFeeder()
  const { pole: poleId } = useSelection()
  if (shown.part === 'outbox') return <Outbox />
  if (shown.part === 'job') return <JobPage key={shown.jobId} jobId={shown.jobId} />
  const toFinder = () => openCrewView({ part: 'pole finder' })
  const pole = poleId === null ? undefined : poleById.get(poleId)
  if (pole) return <CrewPole pole={pole} back="Back to the search" onBack={toFinder} />
  return (
    <>
      {poleId !== null && (
        <EmptyNote what={`This feeder has no pole ${poleId}.`}>
          <Button onClick={() => select({ pole: null, view: 'pole finder' })}>
            Back to the search
          </Button>
        </EmptyNote>
      )}
      {shown.part === 'pole finder' ? <PoleFinder /> : <JobsList />}
    </>
  )
}
