import { useState } from 'react'
import { useSettings } from '../../api/feeders.ts'
import { dropFromDevice, useConnection, useOnDevice } from '../../api/on-device.ts'
import { agoInWords, momentInWords } from '../../record/moment-in-words.ts'
import { sizeInWords } from '../../record/size-in-words.ts'
import { useNow } from '../../record/use-now.ts'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { TakingNote } from './taking-note.tsx'
import { useTakeOffline, type What } from './use-take-offline.ts'

interface Props {
  readonly what: What
  /** "this job", "the feeder Windmill": as it stands in a sentence. */
  readonly of: string
}

/** Puts a job or a feeder on the device, says what is there, how old and how large, and drops it. */
export function TakeOfflinePanel({ what, of }: Props) {
  const kept = useOnDevice().find((item) =>
    'jobId' in what
      ? item.jobId === what.jobId
      : item.jobId === undefined && item.feederId === what.feederId,
  )
  const { taking, take, cancel } = useTakeOffline([what])
  const { storage } = useConnection()
  const nowMs = useNow()
  const [problem, setProblem] = useState<unknown>(null)
  const drop = (key: string) => {
    dropFromDevice(key).then(() => setProblem(null), setProblem)
  }
  return (
    <div className="stack">
      {kept ? (
        <p>
          <strong>✓ On this device</strong>, as of{' '}
          {agoInWords(kept.keptAt, nowMs) ?? momentInWords(kept.keptAt)} (
          {momentInWords(kept.keptAt)}), {sizeInWords(kept.sizeBytes)}: {kept.words}.
        </p>
      ) : (
        <p>
          Not on this device yet. Take {of} offline before you drive out of signal: records, map,
          drawings, jobs and photos come along; the program itself is kept on its own.
        </p>
      )}
      <BaseMapNote />
      <TakingNote taking={taking} onStop={cancel} />
      {problem !== null && <ErrorNote title="It was not dropped" error={problem} />}
      {taking.status !== 'taking' && (
        <div className="row">
          <Button onClick={take}>{kept ? 'Fetch it anew' : 'Take offline'}</Button>
          {kept && <Button onClick={() => drop(kept.key)}>Drop it from the device</Button>}
        </div>
      )}
      {kept && storage?.isPersistent === false && (
        <p>
          The browser may clear what is kept here when the device runs short of room; a page that is
          installed on the home screen mostly stays. Send what waits as soon as there is signal.
        </p>
      )}
      {kept && (
        <p>What you entered and is not sent yet stays on the device, also when it is dropped.</p>
      )}
    </div>
  )
}

/** The utility's own map comes from another server, piece by piece and without end, so it is not kept. */
function BaseMapNote() {
  const { data } = useSettings()
  if (!data?.mapStyleUrl) return null
  return (
    <p>
      Your utility’s base map is not kept on the device: without signal the line, its poles and the
      land that is recorded with the feeder are drawn without it.
    </p>
  )
}
