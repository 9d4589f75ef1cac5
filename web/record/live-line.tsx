import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { useNames } from '../api/names.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useIsPaused, useLiveChanges, useNewestChange } from '../state/live.ts'
import { useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import './live-line.css'

/** Follows the record for the page, and says what the person should know of it: mostly nothing. */
export function LiveLine() {
  useLiveChanges()
  const isPaused = useIsPaused()
  const { person } = useSelection()
  // The crew's desk has a line of its own for the connection.
  const saysItself = person === 'crew'
  return (
    <div className="live-line" role="status">
      {isPaused && !saysItself && (
        <p>Live changes are paused: the connection is broken. What others change shows later.</p>
      )}
      <NewerFeeder />
    </div>
  )
}

/** Offers another version of the open feeder instead of putting it under the person's hands. */
function NewerFeeder() {
  const { feeder, version } = useFeeder()
  const { id, name } = feeder.header
  const change = useNewestChange('feeder', id)
  const nameOf = useNames()
  const client = useQueryClient()
  const [passedOver, setPassedOver] = useState(0)
  if (!change || change.version <= version || change.version <= passedOver) return null
  const load = async () => {
    await client.invalidateQueries({ queryKey: ['feeder', id] })
    await client.invalidateQueries({ queryKey: ['findings', id] })
  }
  return (
    <div className="live-offer">
      <span>
        {change.actorId === null ? 'Someone' : nameOf(change.actorId)} took in version{' '}
        {change.version} of {name}. You look at version {version}.
      </span>
      <Button onClick={() => void load()}>Load version {change.version}</Button>
      <Button look="plain" onClick={() => setPassedOver(change.version)}>
        Not now
      </Button>
    </div>
  )
}
