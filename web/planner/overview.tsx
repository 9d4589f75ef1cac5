import { useMay } from '../api/account.ts'
import { useFindings } from '../api/feeders.ts'
import { FeederJobs } from '../jobs/feeder-jobs.tsx'
import { RecordFoot } from '../record/record-foot.tsx'
import { convergedCase, whyUnsolved } from '../state/case-solutions.ts'
import { useFeeder } from '../state/feeder.tsx'
import { counted } from '../state/format.ts'
import { select } from '../state/selection.ts'
import { openSheet } from '../state/sheet.ts'
import { useBefore, useShownCaseId } from '../state/solutions.ts'
import { Button } from '../ui/button.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { BypassedBanks } from './bypassed-banks.tsx'
import { CaseTable } from './case-table.tsx'
import { firstLine } from './first-line.ts'
import { SavedList } from './saved-list.tsx'
import { SuggestForm } from './suggest-form.tsx'

/** Where the planner starts: what is wrong, the next step, and what was kept. */
export function Overview() {
  const { feeder } = useFeeder()
  return (
    <>
      <FirstLine />
      <BypassedBanks />
      <SuggestForm />
      <WorkLine />
      <CaseTable />
      <SavedList />
      <FeederJobs howToBegin="Keep a proposal, open it, and hand it to the crew." />
      <FindingsLine />
      <RecordFoot />
      {feeder.header.citation && <p className="small soft">{feeder.header.citation}</p>}
    </>
  )
}

/** Studies beyond this feeder, and what goes on in the background. */
function WorkLine() {
  const maySee = useMay('see who changed what')
  const mayStudy = useMay('run a siting study')
  return (
    <div className="row">
      {mayStudy && (
        <Button look="plain" onClick={() => select({ view: 'several' })}>
          Study several feeders
        </Button>
      )}
      {maySee && (
        <Button look="plain" onClick={() => openSheet('work')}>
          Work under way and done
        </Button>
      )}
    </div>
  )
}

function FirstLine() {
  const model = useFeeder()
  const caseId = useShownCaseId()
  const { data, error, isPending, refetch } = useBefore()
  const solution = convergedCase(data, caseId)
  if (isPending) return <LoadingNote what="Computing the voltages of every load case…" />
  if (error) {
    return (
      <ErrorNote
        title="The voltages could not be computed."
        error={error}
        onRetry={() => void refetch()}
      />
    )
  }
  if (!solution)
    return <EmptyNote what={whyUnsolved(data, caseId) ?? 'This case has no voltages.'} />
  return <h1 className="planner-first-line">{firstLine(model, solution)}</h1>
}

function FindingsLine() {
  const { feeder } = useFeeder()
  const count = useFindings(feeder.header.id).data?.findings.length
  if (count === undefined) return null
  return (
    <p>
      {count === 0
        ? 'Checking the layers found nothing wrong. '
        : `${counted(count, 'finding')} in the layers. `}
      <Button look="plain" onClick={() => select({ view: 'findings' })}>
        {count === 0 ? 'What was checked' : 'Read on'}
      </Button>
    </p>
  )
}
