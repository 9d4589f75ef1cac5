import { useMutation } from '@tanstack/react-query'
import type { TakeOutQuery } from '#contract/history.ts'
import { useMay } from '../api/account.ts'
import type { Thing } from '../api/history.ts'
import { useWorkChanges } from '../api/long-work.ts'
import { takeOutHistory } from '../api/take-out-history.ts'
import { openSheet } from '../state/sheet.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { SUBJECT_WORDS } from './role-words.ts'

/** Takes the history of all things of this kind out as a file, for whoever may. */
export function TakeOut({ thing: { subject, feederId } }: { readonly thing: Thing }) {
  const mayTakeOut = useMay('take the history out')
  const take = useMutation({
    mutationFn: (as: TakeOutQuery['as']) =>
      takeOutHistory({ as, ...(feederId !== null && { feederId }) }),
  })
  const mayReport = useMay('make a report of the history')
  const { report } = useWorkChanges()
  if (!mayTakeOut) return null
  const whole = feederId === null ? `every ${SUBJECT_WORDS[subject]}` : 'all of this feeder'
  return (
    <details className="record-fold">
      <summary>Take the history out</summary>
      <div className="stack">
        <p className="small soft">
          The history of {whole}, oldest first, with its chain of hashes, so that it can be checked
          that nothing is missing or changed.
        </p>
        <div className="row">
          <Button disabled={take.isPending} onClick={() => take.mutate('csv')}>
            As a table (CSV)
          </Button>
          <Button disabled={take.isPending} onClick={() => take.mutate('json-lines')}>
            As lines of JSON
          </Button>
        </div>
        {mayReport && (
          <p className="small">
            A long history is better made in the background and fetched when it is ready.{' '}
            <Button
              look="plain"
              disabled={report.isPending}
              onClick={() =>
                report.mutate(
                  { as: 'csv', ...(feederId !== null && { feederId }) },
                  { onSuccess: () => openSheet('work') },
                )
              }
            >
              Make it in the background
            </Button>
          </p>
        )}
        {report.error && <ErrorNote title="No report was begun." error={report.error} />}
        {take.isPending && <p role="status">Writing the file…</p>}
        {take.isSuccess && <p role="status">The file was handed to the browser.</p>}
        {take.error && <ErrorNote title="The history was not taken out." error={take.error} />}
      </div>
    </details>
  )
}
