import {
  askWhetherHere,
  connection,
  noteCopiesReplaced,
  onServerBack,
} from '../device/connection.ts'
import { dropOldCopies } from '../device/copies.ts'
import { keepShell, keepShellAsItIs } from '../device/shell.ts'
import { measureRoom } from '../device/storage-room.ts'
import { call } from './call.ts'
import { sendOutbox, startOutbox } from './outbox.ts'
import { queryClient } from './query-client.ts'
import { SESSION_ENDED } from './signed-in.ts'

/** Since when the server has been away; what was shown since may come from the device. */
let awaySinceMs = Number.POSITIVE_INFINITY

/** Has the pages work without signal, as long as they stand: once per page. */
export function startDevice(): void {
  connection.follow(() => {
    if (!connection.get().isHere) awaySinceMs = Math.min(awaySinceMs, Date.now())
  })
  onServerBack(() => void refreshWhatIsOld())
  startOutbox()
  window.addEventListener('online', lookForServer)
  window.addEventListener('offline', () => void askWhetherHere())
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') lookForServer()
  })
  void keepPages()
  void dropOldCopies()
  void measureRoom()
}

/** Where the base map comes from is not known without the server: then what is kept stays as it is. */
async function keepPages(): Promise<void> {
  const settings = await call('getSettings', {}).catch(() => null)
  if (settings === null) return keepShellAsItIs()
  const { mapStyleUrl } = settings
  await keepShell(mapStyleUrl === null ? null : new URL(mapStyleUrl).origin)
}

function lookForServer(): void {
  if (connection.get().isHere) void sendOutbox()
  else void askWhetherHere()
}

/** Asks again for what failed or came from the device while the server was away. */
async function refreshWhatIsOld(): Promise<void> {
  const sinceMs = awaySinceMs
  awaySinceMs = Number.POSITIVE_INFINITY
  await queryClient.invalidateQueries({
    predicate: ({ queryKey, state }) =>
      queryKey[0] !== SESSION_ENDED[0] &&
      (state.status === 'error' || state.dataUpdatedAt >= sinceMs),
  })
  if (connection.get().isHere) noteCopiesReplaced()
}
