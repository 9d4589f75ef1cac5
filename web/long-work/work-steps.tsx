import type { Right } from '#contract/rights.ts'
import { hasEnded, type WorkKindName, type WorkSummary } from '#contract/work.ts'
import { useMay } from '../api/account.ts'
import { useWorkChanges } from '../api/long-work.ts'
import { HistoryButton } from '../record/history-button.tsx'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { OpenTakenIn, openStudy } from './open-result.tsx'

const RIGHT_OF: Readonly<Record<WorkKindName, Right>> = {
  siting: 'run a siting study',
  'siting-many': 'run a siting study',
  'take-in': 'take in a feeder',
  'history-report': 'make a report of the history',
}

interface Props {
  readonly item: WorkSummary
  readonly name: string
  readonly onOpened: () => void
}

/** Cancelling what goes on; opening, fetching or repeating what has ended. */
export function WorkSteps({ item, name, onOpened }: Props) {
  const { cancel, fetchReport, report } = useWorkChanges()
  const may = useMay(RIGHT_OF[item.kind])
  const error = cancel.error ?? fetchReport.error ?? report.error
  const isDone = item.state === 'done'
  return (
    <>
      <div className="row">
        {!hasEnded(item.state) && may && (
          <Button
            aria-label={`Cancel: ${name}`}
            disabled={cancel.isPending}
            onClick={() => cancel.mutate(item)}
          >
            Cancel
          </Button>
        )}
        {isDone && item.kind === 'siting' && (
          <Button
            aria-label={`Open: ${name}`}
            onClick={() => {
              openStudy(item)
              onOpened()
            }}
          >
            Open the suggested poles
          </Button>
        )}
        {isDone && item.kind === 'take-in' && <OpenTakenIn item={item} onOpened={onOpened} />}
        {isDone && item.kind === 'history-report' && may && (
          <Button
            aria-label={`Save the file: ${name}`}
            disabled={fetchReport.isPending}
            onClick={() => fetchReport.mutate(item.id)}
          >
            Save the file
          </Button>
        )}
        {hasEnded(item.state) && item.report && may && (
          <Button
            aria-label={`Make it again: ${name}`}
            disabled={report.isPending}
            onClick={() => item.report && report.mutate(item.report)}
          >
            Make it again
          </Button>
        )}
      </div>
      {fetchReport.isSuccess && <p role="status">The file was handed to the browser.</p>}
      {error && <ErrorNote title="Not done" error={error} />}
      {item.kind === 'siting' && (
        <HistoryButton
          thing={{ subject: 'study', subjectId: item.id, feederId: item.feederId }}
          name={name}
        />
      )}
    </>
  )
}
