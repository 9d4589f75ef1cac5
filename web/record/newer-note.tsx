import type { Notice } from '../api/follow-changes.ts'
import { useNames } from '../api/names.ts'
import { Button } from '../ui/button.tsx'
import { agoInWords } from './moment-in-words.ts'
import './record.css'
import { useNow } from './use-now.ts'

interface Props {
  /** Nulls where it was not told live who changed it and when. */
  readonly change: Pick<Notice, 'actorId' | 'what'> & { readonly at: string | null }
  /** Shows both versions; left out where the newer one is still on its way. */
  readonly onLook?: () => void
}

/** Says over an open form that the thing was changed meanwhile; the form itself is left alone. */
export function NewerNote({ change: { actorId, at, what }, onLook }: Props) {
  const nameOf = useNames()
  const nowMs = useNow()
  const ago = at === null ? null : agoInWords(at, nowMs)
  const how = what === 'deleted' ? 'Deleted' : 'Changed'
  return (
    <div className="newer-note" role="status">
      <span>
        {how} by {actorId === null ? 'someone' : nameOf(actorId)} {ago ?? 'meanwhile'}. What you
        typed stays.
      </span>
      {onLook && (
        <Button look="plain" onClick={onLook}>
          Look at both
        </Button>
      )}
    </div>
  )
}
