import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach } from 'vitest'
import type { Stamp } from '../../server/services/ports.ts'
import { type OpenStore, openStore, type StoreOptions } from '../../server/store/open-store.ts'
import { type FreshDatabase, tabledDatabase } from '../support/fresh-database.ts'

export interface TemporaryStore {
  readonly folder: string
  readonly options: StoreOptions
  readonly store: OpenStore
  /** Closes the database and opens it again, as a new start would. */
  reopen(): Promise<OpenStore>
}

/** A store on a real database for each test of the calling file or group. */
export function temporaryStore(): TemporaryStore {
  let folder = ''
  let fresh: FreshDatabase
  let options: StoreOptions
  let store: OpenStore
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'crossarm-store-'))
    fresh = await tabledDatabase()
    const { databaseUrl } = fresh
    options = { dataFolder: folder, ...(databaseUrl && { databaseUrl }) }
    store = await openStore(options)
  })
  afterEach(async () => {
    await store.close()
    await fresh.drop()
    await rm(folder, { recursive: true, force: true })
  })
  return {
    get folder() {
      return folder
    },
    get options() {
      return options
    },
    get store() {
      return store
    },
    reopen: async () => {
      await store.close()
      store = await openStore(options)
      return store
    },
  }
}

/** Moments one second apart, so that the order of changes shows. */
export function stampAt(second: number, actorId = 'robin'): Stamp {
  const at = new Date(Date.UTC(2026, 4, 1, 8, 0, second)).toISOString()
  return { at, actor: { id: actorId, role: 'coordinator' } }
}
