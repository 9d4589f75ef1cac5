import { dropFromDevice, useConnection, useOnDevice } from '../../api/on-device.ts'
import { agoInWords, momentInWords } from '../../record/moment-in-words.ts'
import { sizeInWords } from '../../record/size-in-words.ts'
import { useNow } from '../../record/use-now.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { counted } from '../../state/format.ts'
import { Button } from '../../ui/button.tsx'
import { List, ListRow } from '../../ui/list.tsx'
import { TakeOfflinePanel } from './take-offline-panel.tsx'

/** Everything that was taken offline, and the open feeder as an area to take. */
export function KeptList() {
  const kept = useOnDevice()
  const { storage } = useConnection()
  const { header } = useFeeder().feeder
  const nowMs = useNow()
  return (
    <details className="crew-fold">
      <summary>
        On this device:{' '}
        {kept.length === 0 ? 'nothing taken offline' : counted(kept.length, 'copy', 'copies')}
        {storage && storage.usedBytes > 0 && `, ${sizeInWords(storage.usedBytes)} in all`}
      </summary>
      <div className="stack">
        {kept.length > 0 && (
          <List label="Copies on this device">
            {kept.map(({ key, words, keptAt, sizeBytes }) => (
              <ListRow key={key}>
                <strong>{words}</strong>
                <span>
                  {sizeInWords(sizeBytes)}, as of{' '}
                  {agoInWords(keptAt, nowMs) ?? momentInWords(keptAt)}
                </span>
                <div>
                  <Button onClick={() => void dropFromDevice(key)}>Drop it</Button>
                </div>
              </ListRow>
            ))}
          </List>
        )}
        <h3>The whole feeder {header.name}</h3>
        <TakeOfflinePanel what={{ feederId: header.id }} of={`the feeder ${header.name}`} />
      </div>
    </details>
  )
}
