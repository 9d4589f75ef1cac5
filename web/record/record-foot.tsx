import { useMay } from '../api/account.ts'
import { useFeeder } from '../state/feeder.tsx'
import { DeletedList } from './deleted-list.tsx'
import './record.css'
import { Timeline } from './timeline.tsx'
import { useFold } from './use-fold.ts'

/** Foot of every desk: who changed the feeder, and what was deleted on it. */
export function RecordFoot() {
  const { feeder } = useFeeder()
  const { id, name } = feeder.header
  const history = useFold()
  const deleted = useFold()
  if (!useMay('see who changed what')) return null
  return (
    <section className="record-bottom" aria-label="Record of this feeder">
      <details className="record-fold" onToggle={history.onToggle}>
        <summary>Who changed this feeder</summary>
        {history.isOpen && (
          <Timeline
            thing={{ subject: 'feeder', subjectId: id, feederId: id }}
            name={`the feeder ${name}`}
          />
        )}
      </details>
      <details className="record-fold" onToggle={deleted.onToggle}>
        <summary>What was deleted</summary>
        {deleted.isOpen && <DeletedList />}
      </details>
    </section>
  )
}
