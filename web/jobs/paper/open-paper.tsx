import { lazy, Suspense } from 'react'
import type { Job } from '#contract/jobs.ts'
import { select, useSelection } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { LoadingNote } from '../../ui/state-note.tsx'

const JobPacket = lazy(async () => ({
  default: (await import('./job-packet.tsx')).JobPacket,
}))
const LabelSheet = lazy(async () => ({
  default: (await import('./label-sheet.tsx')).LabelSheet,
}))

/** Opens a paper of the job that is open. Going back leads to the job again. */
export function PaperButtons() {
  return (
    <>
      <Button onClick={() => select({ paper: 'packet' })}>Packet to print</Button>
      <Button onClick={() => select({ paper: 'labels' })}>Labels to print</Button>
    </>
  )
}

interface Props {
  readonly job: Job
  /** Poles of the job in the order in which their labels are printed. */
  readonly order: readonly string[]
}

/** The paper of a job that the address names; nothing where it names none. */
export function OpenPaper({ job, order }: Props) {
  const { paper } = useSelection()
  const goBack = () => select({ paper: null })
  return (
    <Suspense fallback={<LoadingNote what="Laying out the paper…" />}>
      {paper === 'packet' && <JobPacket job={job} onBack={goBack} />}
      {paper === 'labels' && <LabelSheet plan={job.plan} order={order} onBack={goBack} />}
    </Suspense>
  )
}
