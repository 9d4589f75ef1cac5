import type { ProtectionRecord } from '#contract/protections.ts'
import { useProtectionHistory } from '../api/protections.ts'
import { useFeeder } from '../state/feeder.tsx'
import { Button } from '../ui/button.tsx'
import { ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { changeInWords } from './history-in-words.ts'
import { momentInWords } from './moment-in-words.ts'

interface Props {
  readonly item: ProtectionRecord
  readonly onClose: () => void
}

/** Who changed an item, when, and what: newest first. */
export function ItemHistory({ item, onClose }: Props) {
  const { data, error, isPending, refetch } = useProtectionHistory(
    useFeeder().feeder.header.id,
    item.id,
  )
  return (
    <section className="stack item-form" aria-label={`History of ${item.kind}: ${item.what}`}>
      <h4>
        History of {item.kind}: {item.what}
      </h4>
      {isPending && <LoadingNote what="Fetching the history…" />}
      {error && (
        <ErrorNote
          title="The history did not arrive"
          error={error}
          onRetry={() => void refetch()}
        />
      )}
      <ol className="timeline">
        {data?.toReversed().map((change) => (
          <li key={`${change.at} ${change.after.version}`}>
            <span className="soft small">
              {momentInWords(change.at)}, {change.actorId} ({change.actorRole})
            </span>
            {changeInWords(change).map((sentence) => (
              <span key={sentence}>{sentence}</span>
            ))}
          </li>
        ))}
      </ol>
      <Button onClick={onClose}>Close the history</Button>
    </section>
  )
}
