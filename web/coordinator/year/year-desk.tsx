import { useMay } from '../../api/account.ts'
import { FeederJobs } from '../../jobs/feeder-jobs.tsx'
import { RecordFoot } from '../../record/record-foot.tsx'
import { useSelection } from '../../state/selection.ts'
import { EmptyNote } from '../../ui/state-note.tsx'
import type { BirdRecord } from '../use-bird-record.ts'
import { DueLooks } from './due-looks.tsx'
import { KeptList } from './kept-list.tsx'
import { KeptProgramme } from './kept-programme.tsx'
import { PlanPart } from './plan-part.tsx'
import './year.css'
import { programmeIdOf } from './year-view.ts'

/** The year's work: what a budget is best spent on, and the programmes that were kept. */
export function YearDesk({ record }: { readonly record: BirdRecord }) {
  const id = programmeIdOf(useSelection().view)
  if (!useMay('see nests and incidents')) {
    return (
      <EmptyNote what="A programme tells where nests are, which is not shown to readers: it is protected." />
    )
  }
  if (id !== null) return <KeptProgramme id={id} />
  return (
    <>
      <PlanPart record={record} />
      <KeptList />
      <DueLooks record={record} />
      <FeederJobs howToBegin="Open a kept programme and hand one of its rounds to the crew." />
      <RecordFoot />
    </>
  )
}
