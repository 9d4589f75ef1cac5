import { useState } from 'react'
import type { Attachment } from '#contract/attachments.ts'
import { useMay } from '../api/account.ts'
import { type Holder, useAttachmentChanges, useAttachments } from '../api/attachments.ts'
import { counted } from '../state/format.ts'
import { Button } from '../ui/button.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { AttachForm } from './attach-form.tsx'
import { AttachmentRow } from './attachment-row.tsx'
import { AttachmentView } from './attachment-view.tsx'
import './attachments.css'

interface Props {
  readonly holder: Holder
  /** "pole S-245": as it stands in a sentence. */
  readonly of: string
  /** Where they are looked at beside other work: nothing is shown as long as there are none. */
  readonly isReadOnly?: boolean
}

/** Photos and reports of a pole, a proposal or an item: the list, one opened, and adding another. */
export function Attachments({ holder, of, isReadOnly = false }: Props) {
  const { data, error, isPending, refetch } = useAttachments(holder)
  const mayAttach = useMay('attach a file') && !isReadOnly
  const [openId, setOpenId] = useState<string | null>(null)
  const [gone, setGone] = useState<readonly Attachment[]>([])
  const photos = data?.filter(({ mediaType }) => mediaType !== 'application/pdf') ?? []
  if (isReadOnly && !error && !data?.length) return null
  return (
    <section className="stack attachments" aria-label={`Photos and reports of ${of}`}>
      <h3>Photos and reports</h3>
      {isPending && <LoadingNote what="Fetching photos and reports…" />}
      {error && (
        <ErrorNote
          title="Photos and reports did not arrive."
          error={error}
          onRetry={() => void refetch()}
        />
      )}
      {data?.length === 0 && (
        <EmptyNote
          what={
            mayAttach
              ? `None of ${of} yet. Add a photo or a report below.`
              : `None of ${of} yet. Who works there can add them.`
          }
        />
      )}
      {data && data.length > 0 && (
        <ul
          className="attachment-list"
          aria-label={counted(data.length, 'photo or report', 'photos and reports')}
        >
          {data.map((attachment) => (
            <AttachmentRow
              key={attachment.id}
              attachment={attachment}
              onOpen={() => setOpenId(attachment.id)}
              onDeleted={(deleted) => setGone([deleted, ...gone])}
            />
          ))}
        </ul>
      )}
      {gone.map((deleted) => (
        <GoneAttachment
          key={`${deleted.id} ${deleted.version}`}
          deleted={deleted}
          onDone={() => setGone(gone.filter((other) => other !== deleted))}
        />
      ))}
      {mayAttach && <AttachForm holder={holder} of={of} />}
      {openId !== null && photos.some(({ id }) => id === openId) && (
        <AttachmentView
          photos={photos}
          openId={openId}
          onOpen={setOpenId}
          onClose={() => setOpenId(null)}
        />
      )}
    </section>
  )
}

interface GoneProps {
  readonly deleted: Attachment
  readonly onDone: () => void
}

/** What was deleted here just now, with the step that undoes it. */
function GoneAttachment({ deleted, onDone }: GoneProps) {
  const { restore } = useAttachmentChanges(deleted.feederId)
  return (
    <div className="state-note" role="status">
      <span>Deleted: {deleted.fileName}. It can be restored.</span>
      {restore.error && <ErrorNote title="Not restored." error={restore.error} />}
      <Button onClick={() => restore.mutate(deleted, { onSuccess: onDone })}>Undo</Button>
    </div>
  )
}
