import { useState } from 'react'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { useFileAddress } from '../../../api/on-device.ts'
import { type OutboxItem, useOutbox } from '../../../api/outbox.ts'
import { Moment } from '../../../record/moment.tsx'
import { useSelection } from '../../../state/selection.ts'
import type { FieldEntry, FieldJob } from '../fold-field-job.ts'
import { StandingMark } from '../standing-mark.tsx'
import { offPoleWords } from './off-pole-words.ts'
import { TakePhoto } from './take-photo.tsx'

interface Props {
  readonly field: FieldJob
  readonly poleId: string
}

type PhotoEntry = Extract<JobEntry, { kind: 'photo' }>

/** Photos of the job at one pole, those that wait on the device included. */
export function JobPhotos({ field, poleId }: Props) {
  const outbox = useOutbox({ jobId: field.job.id })
  const photos = field.entries.flatMap(({ entry, ...rest }) =>
    entry.kind === 'photo' && entry.pole === poleId ? [{ ...rest, entry }] : [],
  )
  return (
    <div className="stack">
      <TakePhoto job={field.job} poleId={poleId} />
      {photos.length === 0 && <p>No photo of this pole yet.</p>}
      <ul className="photos" aria-label="Photos">
        {photos.map((photo) => (
          <Photo
            key={photo.entry.id}
            entry={photo.entry}
            standing={photo.standing}
            item={outbox.find(({ id }) => id === photo.entry.attachmentId)}
          />
        ))}
      </ul>
    </div>
  )
}

interface PhotoProps {
  readonly entry: PhotoEntry
  readonly standing: FieldEntry['standing']
  /** What carries the picture, while it is on the device. */
  readonly item: OutboxItem | undefined
}

function Photo({ entry, standing, item }: PhotoProps) {
  const { units } = useSelection()
  const address = useFileAddress(entry.attachmentId)
  const [isMissing, setIsMissing] = useState(false)
  const isRefused = item?.state === 'refused'
  return (
    <li className="photo">
      {address && !isMissing && (
        <img
          className="photo-thumb"
          src={address}
          alt={entry.what || 'Photo'}
          onError={() => setIsMissing(true)}
        />
      )}
      {isMissing && <span className="photo-thumb">The picture is with the server.</span>}
      <span className="stack">
        <span>{entry.what || 'Photo'}</span>
        <span className="small">{offPoleWords(entry.offPoleM, units)}</span>
        {entry.takenAt && (
          <span className="small">
            Taken <Moment at={entry.takenAt} />.
          </span>
        )}
        <StandingMark standing={item?.state ?? standing} />
        {isRefused && <span>{item.problem}</span>}
      </span>
    </li>
  )
}
