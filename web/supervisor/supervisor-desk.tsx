import { lazy, type ReactNode, Suspense } from 'react'
import { useMay } from '../api/account.ts'
import { JobPage } from '../jobs/page/job-page.tsx'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { EmptyNote, LoadingNote } from '../ui/state-note.tsx'
import { Tabs } from '../ui/tabs.tsx'
import { BoardPart } from './board/board-part.tsx'
import { DraftByHand } from './draft-by-hand.tsx'
import './supervisor.css'
import { type SupervisorView, supervisorView, viewOfOrders } from './supervisor-view.ts'

const OrdersPart = lazy(async () => ({
  default: (await import('./steps/orders-part.tsx')).OrdersPart,
}))
const OrderPage = lazy(async () => ({
  default: (await import('./steps/order-page.tsx')).OrderPage,
}))

const AddOrder = lazy(async () => ({
  default: (await import('./steps/add-order.tsx')).AddOrder,
}))

const TABS = [
  { id: 'jobs', name: 'Jobs' },
  { id: 'orders', name: 'Orders of steps' },
] as const

const ORDER_PARTS: readonly SupervisorView['part'][] = ['orders', 'order', 'add order']

/** The supervisor's desk: jobs by their state, and the orders of steps that they take. */
export function SupervisorDesk() {
  const view = supervisorView(useSelection().view)
  const { feeder } = useFeeder()
  const maySee = useMay('see jobs')
  const tab = ORDER_PARTS.includes(view.part) ? 'orders' : 'jobs'
  if (!maySee) {
    return <EmptyNote what="Jobs are not shown in the role in which you act." />
  }
  return (
    <div className="stack supervisor">
      <h2 className="visually-hidden">Jobs on {feeder.header.name}</h2>
      <Tabs
        label="Crew work"
        tabs={TABS}
        chosen={tab}
        onChoose={(chosen) => select({ view: chosen === 'orders' ? viewOfOrders() : null })}
      >
        <Suspense fallback={<LoadingNote what="Opening the page…" />}>{bodyOf(view)}</Suspense>
      </Tabs>
    </div>
  )
}

function bodyOf(view: SupervisorView): ReactNode {
  switch (view.part) {
    case 'board':
      return <BoardPart />
    case 'draft':
      return <DraftByHand />
    case 'job':
      return (
        <JobPage
          key={view.jobId}
          jobId={view.jobId}
          backWords="Back to the jobs"
          onBack={() => select({ view: null })}
        />
      )
    case 'orders':
      return <OrdersPart />
    case 'add order':
      return <AddOrder />
    case 'order':
      return <OrderPage key={view.sequenceId} sequenceId={view.sequenceId} />
  }
}
