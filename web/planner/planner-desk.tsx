import { lazy, Suspense } from 'react'
import { jobIdOfView } from '../jobs/job-view.ts'
import { select, useSelection } from '../state/selection.ts'
import { LoadingNote } from '../ui/state-note.tsx'
import { AddFeeder } from './add-feeder.tsx'
import { FindingsView } from './findings-view.tsx'
import { Overview } from './overview.tsx'
import { PolePanel } from './pole-panel.tsx'
import { PoleSearch } from './pole-search.tsx'
import { ProposalView } from './proposal-view.tsx'
import { SeveralFeeders } from './several-feeders.tsx'
import { StudyView } from './study-view.tsx'
import './planner.css'

const JobPage = lazy(async () => ({
  default: (await import('../jobs/page/job-page.tsx')).JobPage,
}))

/** The planner's desk: a search box, the selected pole, and below it the step that is open. */
export function PlannerDesk() {
  const { view, proposal, study, choice, pole } = useSelection()
  if (view === 'add') return <AddFeeder />
  if (view === 'several') return <SeveralFeeders />
  const jobId = jobIdOfView(view)
  if (jobId !== null) {
    return (
      <Suspense fallback={<LoadingNote what="Opening the job…" />}>
        <JobPage
          key={jobId}
          jobId={jobId}
          backWords={proposal === null ? 'Back to the feeder' : 'Back to the proposal'}
          onBack={() => select({ view: null })}
        />
      </Suspense>
    )
  }
  return (
    <div className="stack planner">
      <PoleSearch />
      {pole !== null && <PolePanel key={pole} />}
      <Step
        name={
          view === 'findings'
            ? 'findings'
            : proposal !== null || (study !== null && choice !== null)
              ? 'proposal'
              : study !== null
                ? 'study'
                : 'overview'
        }
      />
    </div>
  )
}

function Step({ name }: { readonly name: 'findings' | 'proposal' | 'study' | 'overview' }) {
  if (name === 'findings') return <FindingsView />
  if (name === 'proposal') return <ProposalView />
  return name === 'study' ? <StudyView /> : <Overview />
}
