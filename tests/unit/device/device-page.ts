import { vi } from 'vitest'

/**
 * Loads the code of the pages anew, as a browser does that opens one: what was in memory before is
 * gone, what lies on the device is there. Several of them are several windows.
 */
export async function openPage() {
  vi.resetModules()
  const { call } = await import('../../../web/api/call.ts')
  const outbox = await import('../../../web/api/outbox.ts')
  const { queryClient } = await import('../../../web/api/query-client.ts')
  const { ME, noteSignedIn } = await import('../../../web/api/signed-in.ts')
  const onDevice = await import('../../../web/api/on-device.ts')
  const connection = await import('../../../web/device/connection.ts')
  const items = await import('../../../web/device/outbox-items.ts')
  const copies = await import('../../../web/device/copies.ts')
  const { personHere } = await import('../../../web/device/person.ts')
  const { deviceTrouble } = await import('../../../web/device/device-troubles.ts')
  const leave = outbox.startOutbox()
  return {
    call,
    outbox,
    onDevice,
    connection,
    copies,
    noteSignedIn,
    trouble: () => deviceTrouble.get(),
    /** Asks who is signed in, as every page does first. */
    enter: () =>
      queryClient.fetchQuery({ queryKey: ME, queryFn: () => call('getMe', {}), retry: false }),
    /** The person's items as they lie on the device. */
    items: () => items.itemsOf(personHere.get() ?? ''),
    /** Stops following; what is under way goes on, as in a window that is closed. */
    close: leave,
    /** Closes and waits for what is under way. */
    end: async () => {
      leave()
      await outbox.sendOutbox()
      await copies.packsOf('')
    },
  }
}

export type DevicePage = Awaited<ReturnType<typeof openPage>>
