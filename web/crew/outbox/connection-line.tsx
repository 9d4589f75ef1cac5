import { useConnection } from '../../api/on-device.ts'
import { Moment } from '../../record/moment.tsx'
import { sizeInWords } from '../../record/size-in-words.ts'

/** Whether the server is there, what is shown in its place, and what of the device is worth a word. */
export function ConnectionLine() {
  const { isOnline, copyFrom, storage, warnings } = useConnection()
  return (
    <div className="stack">
      <p role="status">
        <strong>{isOnline ? '● The server answers.' : '○ The server does not answer.'}</strong>{' '}
        {isOnline
          ? 'What is entered is sent at once.'
          : 'Work on: what is entered stays on this device and is sent by itself later.'}
      </p>
      {copyFrom !== null && (
        <p>
          Shown from the copy on this device, as of <Moment at={copyFrom} />.
        </p>
      )}
      {warnings.map((words) => (
        <p key={words} role="status">
          {words}
        </p>
      ))}
      {storage && (
        <p>
          {sizeInWords(storage.usedBytes)} are used on this device
          {storage.freeBytes !== null && `, ${sizeInWords(storage.freeBytes)} are free`}.{' '}
          {!storage.isPersistent &&
            'The browser may clear them when the device runs out of room: send before long.'}
        </p>
      )}
    </div>
  )
}
