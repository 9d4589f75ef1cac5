import { useMay } from '../api/account.ts'
import { useWorkList } from '../api/long-work.ts'
import { Dialog } from '../ui/dialog.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { ReportForm } from './report-form.tsx'
import './work.css'
import { WorkRow } from './work-row.tsx'

/** Everything that goes on in the background, and what came of it. */
export function WorkSheet({ onClose }: { readonly onClose: () => void }) {
  const maySee = useMay('see who changed what')
  const mayReport = useMay('make a report of the history')
  return (
    <Dialog title="Work under way and done" isWide onClose={onClose}>
      {maySee ? (
        <div className="stack">
          {mayReport && <ReportForm />}
          <WorkList onOpened={onClose} />
        </div>
      ) : (
        <p>Long work is not shown in the role in which you act.</p>
      )}
    </Dialog>
  )
}

function WorkList({ onOpened }: { readonly onOpened: () => void }) {
  const { data, error, isPending, refetch } = useWorkList()
  if (isPending) return <LoadingNote what="Listing the work…" />
  if (error) {
    return (
      <ErrorNote
        title="The work could not be listed."
        error={error}
        onRetry={() => void refetch()}
      />
    )
  }
  if (data.length === 0) {
    return (
      <EmptyNote what="Nothing yet. Siting studies, feeders that are taken in in the background and reports stand here while they go on and after." />
    )
  }
  return (
    <List label={`Work, newest first: ${data.length}`}>
      {data.map((item) => (
        <ListRow key={item.id}>
          <WorkRow item={item} onOpened={onOpened} />
        </ListRow>
      ))}
    </List>
  )
}
