import { useEffect } from 'react'
import type { Attachment } from '#contract/attachments.ts'
import { useFileAddress } from '../api/on-device.ts'
import { Button } from '../ui/button.tsx'
import { Dialog } from '../ui/dialog.tsx'
import { Moment } from './moment.tsx'
import { Who } from './who.tsx'

interface Props {
  readonly photos: readonly Attachment[]
  readonly openId: string
  readonly onOpen: (id: string) => void
  readonly onClose: () => void
}

/** One photo large; arrow keys go to the next, Escape closes. */
export function AttachmentView({ photos, openId, onOpen, onClose }: Props) {
  const index = photos.findIndex(({ id }) => id === openId)
  const photo = photos[index]
  const before = photos[index - 1]
  const after = photos[index + 1]
  useArrowKeys(
    () => before && onOpen(before.id),
    () => after && onOpen(after.id),
  )
  if (!photo) return null
  return (
    <Dialog title={photo.fileName} onClose={onClose}>
      <div className="stack attachment-view">
        <Photo key={photo.id} id={photo.id} words={photo.note || photo.fileName} />
        {photo.note && <p>{photo.note}</p>}
        <p className="soft small">
          <Who {...photo.changedBy} />, <Moment at={photo.changedAt} />
        </p>
        {photos.length > 1 && (
          <div className="row">
            <Button disabled={!before} onClick={() => before && onOpen(before.id)}>
              Previous photo
            </Button>
            <span>
              {index + 1} of {photos.length}
            </span>
            <Button disabled={!after} onClick={() => after && onOpen(after.id)}>
              Next photo
            </Button>
          </div>
        )}
      </div>
    </Dialog>
  )
}

function useArrowKeys(onLeft: () => void, onRight: () => void): void {
  useEffect(() => {
    const onKeyDown = ({ key }: KeyboardEvent) => {
      if (key === 'ArrowLeft') onLeft()
      if (key === 'ArrowRight') onRight()
    }
    window.addEventListener('keydown', onKeyDown)
    return () => window.removeEventListener('keydown', onKeyDown)
  })
}

function Photo({ id, words }: { readonly id: string; readonly words: string }) {
  return <img src={useFileAddress(id) ?? undefined} alt={words} />
}
