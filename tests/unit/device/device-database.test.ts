import { openDB } from 'idb'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { DEVICE_STEPS, type StoredItem } from '../../../web/device/device-tables.ts'
import { freshDevice } from './fresh-device.ts'

beforeEach(freshDevice)
afterEach(() => {
  vi.restoreAllMocks()
  vi.unstubAllGlobals()
})

/** Loads the device's code anew, as a page that is opened. */
async function openDevice() {
  vi.resetModules()
  const store = await import('../../../web/device/device-store.ts')
  const items = await import('../../../web/device/outbox-items.ts')
  const database = await import('../../../web/device/open-database.ts')
  const { deviceTrouble } = await import('../../../web/device/device-troubles.ts')
  return { store, items, database, trouble: () => deviceTrouble.get() }
}

const entered = (id: string) => ({
  ...{ id, personId: 'crew-1', enteredAt: '2026-06-01T12:00:00.000Z', what: 'A step' },
  ...{ jobId: 'job-1', name: 'sendEntries', input: { params: { jobId: 'job-1' } } },
})

/** Leaves an item on the device as the first version of the tables holds it, with its photo. */
async function leaveItemOfFirstVersion(more: Partial<StoredItem> = {}): Promise<void> {
  const first = await openDB('crossarm', 1, {
    upgrade: (database) => {
      for (const [name, keyPath] of [
        ['copies', 'key'],
        ['contents', 'key'],
        ['packs', 'id'],
        ['outbox', 'id'],
        ['files', 'id'],
        ['facts', 'name'],
      ] as const) {
        database.createObjectStore(name, { keyPath })
      }
    },
  })
  const item = {
    ...entered('old-item-1'),
    ...{ form: 1, key: 'old-item-1', order: 1, hasFile: true, after: [] },
    ...{ state: 'waiting', tries: 2, ...more },
  }
  await first.put('outbox', item)
  await first.put('files', { id: 'old-item-1', file: new Blob(['a photo']) })
  first.close()
}

describe('a newer version of the page', () => {
  it('finds what the first version had left unsent', async () => {
    await leaveItemOfFirstVersion()
    const { items } = await openDevice()
    expect(await items.itemsOf('crew-1')).toMatchObject([{ id: 'old-item-1', state: 'waiting' }])
    expect(await (await items.fileOfItem('old-item-1'))?.text()).toBe('a photo')
  })

  it('adds its own tables and keeps the outbox and its photos whole', async () => {
    await leaveItemOfFirstVersion()
    const { database } = await openDevice()
    const told = { onClosed: () => undefined, onBlocked: () => undefined }
    const next = await database.openDatabase(told, [
      ...DEVICE_STEPS,
      (opened) => opened.createObjectStore('of-the-next-version' as 'facts', { keyPath: 'name' }),
    ])
    expect(next.version).toBe(DEVICE_STEPS.length + 1)
    expect(await next.getAll('outbox')).toMatchObject([{ id: 'old-item-1', tries: 2 }])
    expect(await next.getAll('files')).toHaveLength(1)
    next.close()
  })

  it('that cannot get in while an old window hangs says so, and works in memory until it can', async () => {
    await leaveItemOfFirstVersion()
    // An old window that does not let go, as one that the system has put to sleep.
    const hanging = await openDB('crossarm', 1)
    const { database, items, trouble } = await openDevice()
    const blocked = vi.fn()
    const opening = database.openDatabase({ onClosed: () => undefined, onBlocked: blocked }, [
      ...DEVICE_STEPS,
      () => undefined,
    ])
    await vi.waitFor(() => expect(blocked).toHaveBeenCalled())
    expect(trouble()).toContain('Close the other windows')
    hanging.close()
    const opened = await opening
    expect(trouble()).toBeNull()
    expect(await opened.getAll('outbox')).toHaveLength(1)
    opened.close()
    expect(items.ITEM_FORM).toBeGreaterThan(0)
  })
})

describe('an item that another version of the page wrote', () => {
  it('is kept and shown, and waits for that version where this one is older', async () => {
    await leaveItemOfFirstVersion({ form: 99 })
    const { items } = await openDevice()
    const { problemOfOldItem } = await import('../../../web/api/send-waiting.ts')
    const [item] = await items.itemsOf('crew-1')
    if (!item) throw new Error('The item is gone.')
    expect(problemOfOldItem(item)).toContain('newer version')
    expect(problemOfOldItem({ ...item, form: 1, name: 'aRouteThatIsGone' })).toContain('older')
    expect(problemOfOldItem({ ...item, form: 1 })).toBeNull()
  })
})

describe('a device that takes nothing', () => {
  it('for want of room says so in plain words, and holds what is entered as long as the page stands', async () => {
    const { items, store, trouble } = await openDevice()
    await items.addItem(entered('fits-on-disk'), null)
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('full', 'QuotaExceededError')
    })
    await items.addItem(entered('does-not-fit'), new Blob(['a photo']))
    expect(trouble()).toContain('no room left')
    const ids = async (from: typeof items) => (await from.itemsOf('crew-1')).map(({ id }) => id)
    expect(await ids(items)).toEqual(['fits-on-disk', 'does-not-fit'])
    expect(await (await items.fileOfItem('does-not-fit'))?.text()).toBe('a photo')
    await items.changeItem('does-not-fit', (item) => ({ ...item, state: 'kept' }))
    expect((await items.itemsOf('crew-1'))[1]?.state).toBe('kept')

    put.mockRestore()
    await store.settleMemory()
    expect(trouble()).toBeNull()
    expect(await ids((await openDevice()).items)).toEqual(['fits-on-disk', 'does-not-fit'])
  })

  it('as a private window says so, and works on in memory', async () => {
    vi.stubGlobal('indexedDB', {
      open: () => {
        throw new DOMException('not allowed', 'SecurityError')
      },
    })
    const { items, trouble } = await openDevice()
    await items.addItem(entered('in-memory'), null)
    expect(await items.itemsOf('crew-1')).toHaveLength(1)
    expect(trouble()).toContain('private window')
    await items.dropItems(['in-memory'])
    expect(await items.itemsOf('crew-1')).toEqual([])
  })

  it('leaves nothing half-written where one of several rows is refused', async () => {
    const { store } = await openDevice()
    const good = { table: 'facts', put: { name: 'good', value: '1' } } as const
    const unclonable = { name: 'bad', value: (() => '') as unknown as string }
    await expect(store.writeRows([good, { table: 'facts', put: unclonable }])).rejects.toThrow()
    expect(await store.readAll('facts')).toEqual([])
  })
})
