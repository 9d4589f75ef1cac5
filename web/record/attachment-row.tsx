import { useState } from 'react'
import type { Attachment } from '#contract/attachments.ts'
import { useMay } from '../api/account.ts'
import { useAttachmentChanges } from '../api/attachments.ts'
import { useFileAddress } from '../api/on-device.ts'
import { Button } from '../ui/button.tsx'
import { Drawing } from '../ui/drawing.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { Moment } from './moment.tsx'
import { sizeInWords } from './size-in-words.ts'
import { Timeline } from './timeline.tsx'
import { Who } from './who.tsx'

/** A sheet of paper with a folded corner and lines. */
const PAPER = 'M6 3H14L19 8V21H6ZM14 3V8H19M9 12H16M9 15H16M9 18H13'

interface Props {
  readonly attachment: Attachment
  readonly onOpen: () => void
  readonly onDeleted: (deleted: Attachment) => void
}

export function AttachmentRow({ attachment, onOpen, onDeleted }: Props) {
  const { id, feederId, fileName, note, sizeBytes, changedBy, changedAt } = attachment
  const mayDelete = useMay('delete or restore a file')
  const { remove } = useAttachmentChanges(feederId)
  const [isTold, setIsTold] = useState(false)
  const discard = () => remove.mutate(attachment, { onSuccess: onDeleted })
  return (
    <li className="attachment">
      <Thumbnail attachment={attachment} onOpen={onOpen} />
      <div className="attachment-words">
        <span className="attachment-name">{fileName}</span>
        {note && <span>{note}</span>}
        <span className="soft small">
          {sizeInWords(sizeBytes)}; <Who {...changedBy} />, <Moment at={changedAt} />
        </span>
        <span className="row">
          <Button
            look="plain"
            aria-expanded={isTold}
            aria-label={`History of ${fileName}`}
            onClick={() => setIsTold(!isTold)}
          >
            History
          </Button>
          {mayDelete && (
            <Button
              look="plain"
              aria-label={`Delete ${fileName}`}
              disabled={remove.isPending}
              onClick={discard}
            >
              Delete
            </Button>
          )}
        </span>
      </div>
      {remove.error && <ErrorNote title="Not deleted." error={remove.error} />}
      {isTold && (
        <div className="attachment-history">
          <Timeline thing={{ subject: 'attachment', subjectId: id, feederId }} name={fileName} />
        </div>
      )}
    </li>
  )
}

/** A photo opens in the page; a report is saved by the browser, since nothing is run in the page. */
function Thumbnail({ attachment, onOpen }: Pick<Props, 'attachment' | 'onOpen'>) {
  const { id, mediaType, fileName, note } = attachment
  const fileAddress = useFileAddress(id) ?? undefined
  if (mediaType === 'application/pdf') {
    return (
      <a
        className="attachment-thumb"
        href={fileAddress}
        download={fileName}
        aria-label={`Save the report ${fileName}`}
      >
        <Drawing path={PAPER} sizePx={36} />
        <span className="small">PDF</span>
      </a>
    )
  }
  return (
    <button
      type="button"
      className="attachment-thumb"
      aria-label={`Open the photo ${fileName}`}
      onClick={onOpen}
    >
      <img src={fileAddress} alt={note || fileName} loading="lazy" />
    </button>
  )
}
