import { useConnection } from '../../api/on-device.ts'
import { useOutbox } from '../../api/outbox.ts'
import { agoInWords, momentInWords } from '../../record/moment-in-words.ts'
import { useNow } from '../../record/use-now.ts'
import { Button } from '../../ui/button.tsx'

/** What the crew should know of its device before it drives off; nothing where all is well. */
export function DeviceHealth() {
  const { answersFrom, copyFrom, shell, newVersion, warnings } = useConnection()
  const nowMs = useNow()
  const isOffline = answersFrom === 'device'
  const isAllWell = !isOffline && warnings.length === 0 && shell === 'kept' && !newVersion
  if (isAllWell) return null
  return (
    <section className="crew-health" aria-label="This device">
      {isOffline && (
        <p role="status">
          <strong>No connection.</strong> You see the copies on this device
          {copyFrom && `, from ${agoInWords(copyFrom, nowMs) ?? momentInWords(copyFrom)}`}. The work
          goes on; what you enter is sent later.
        </p>
      )}
      {warnings.map((words) => (
        <p key={words} role="status">
          {words}
        </p>
      ))}
      {shell === 'not possible here' && (
        <p>
          This browser does not keep the program itself: leave the page open where there is no
          signal.
        </p>
      )}
      {shell === 'not kept' && !isOffline && (
        <p>The program is still being put on this device: wait before you drive out of signal.</p>
      )}
      {newVersion && <NewVersion onTake={newVersion} />}
    </section>
  )
}

function NewVersion({ onTake }: { readonly onTake: () => void }) {
  const waiting = useOutbox().some(({ state }) => state !== 'kept')
  return (
    <div className="stack">
      <p>
        A newer version of the program is ready.
        {waiting && ' What waits to be sent stays on the device.'}
      </p>
      <Button onClick={onTake}>Change to the new version</Button>
    </div>
  )
}
