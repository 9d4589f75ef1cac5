import { lazy, type ReactNode, Suspense } from 'react'
import { jobIdOfView } from '../jobs/job-view.ts'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { Tabs } from '../ui/tabs.tsx'
import { BirdCautions } from './bird-cautions.tsx'
import './coordinator.css'
import { DESK_TABS, type DeskTab, deskTabOf, viewOfTab } from './desk-tab.ts'
import { PolesDesk } from './list/poles-desk.tsx'
import { type BirdRecord, useBirdRecord } from './use-bird-record.ts'

const YearDesk = lazy(async () => ({
  default: (await import('./year/year-desk.tsx')).YearDesk,
}))
const ProgrammeJob = lazy(async () => ({
  default: (await import('./year/programme-job.tsx')).ProgrammeJob,
}))
const FindsDesk = lazy(async () => ({
  default: (await import('./finds/finds-desk.tsx')).FindsDesk,
}))
const AccountDesk = lazy(async () => ({
  default: (await import('./account/account-desk.tsx')).AccountDesk,
}))
const SettingsDesk = lazy(async () => ({
  default: (await import('./settings/settings-desk.tsx')).SettingsDesk,
}))

/** The coordinator's desk: poles by what a bird can bridge, the year's work, finds and their account. */
export function CoordinatorDesk() {
  const record = useBirdRecord()
  const { view } = useSelection()
  const { feeder } = useFeeder()
  const tab = deskTabOf(view)
  const jobId = jobIdOfView(view)
  if (record.sites.length === 0) {
    return (
      <EmptyNote what="The points of this feeder stand for no known poles, so there is nothing to protect here. Open a feeder whose poles are surveyed or invented." />
    )
  }
  return (
    <div className="stack">
      <h2 className="visually-hidden">Birds on {feeder.header.name}</h2>
      <Tabs
        label="Bird work"
        tabs={DESK_TABS}
        chosen={tab}
        onChoose={(chosen) => select({ view: viewOfTab(chosen), pole: null })}
      >
        <RecordState record={record} />
        <Suspense fallback={<LoadingNote what="Opening the page…" />}>
          {jobId === null ? bodyOf(tab, record) : <ProgrammeJob key={jobId} jobId={jobId} />}
        </Suspense>
        <BirdCautions />
      </Tabs>
    </div>
  )
}

function bodyOf(tab: DeskTab, record: BirdRecord): ReactNode {
  switch (tab) {
    case 'poles':
      return <PolesDesk record={record} />
    case 'year':
      return <YearDesk record={record} />
    case 'finds':
      return <FindsDesk />
    case 'account':
      return <AccountDesk />
    case 'settings':
      return <SettingsDesk />
  }
}

/** What is on its way, and what did not arrive: the rest is shown without it. */
function RecordState({
  record: { isLoading, progress, error, retry },
}: {
  readonly record: BirdRecord
}) {
  if (error) {
    return (
      <ErrorNote
        title="Not all of the bird record arrived; what is here is shown without the rest"
        error={error}
        onRetry={retry}
      />
    )
  }
  if (!isLoading) return null
  const what = progress
    ? `${progress.what}: ${progress.done} of ${progress.of}…`
    : 'Fetching the bird record…'
  return <LoadingNote what={what} />
}
