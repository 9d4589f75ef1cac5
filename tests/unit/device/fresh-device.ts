import {
  IDBCursor,
  IDBCursorWithValue,
  IDBDatabase,
  IDBFactory,
  IDBIndex,
  IDBKeyRange,
  IDBObjectStore,
  IDBOpenDBRequest,
  IDBRequest,
  IDBTransaction,
  IDBVersionChangeEvent,
} from 'fake-indexeddb'
import { vi } from 'vitest'

/** Classes of the database that the code under test finds as in a browser. */
const CLASSES = {
  IDBCursor,
  IDBCursorWithValue,
  IDBDatabase,
  IDBFactory,
  IDBIndex,
  IDBKeyRange,
  IDBObjectStore,
  IDBOpenDBRequest,
  IDBRequest,
  IDBTransaction,
  IDBVersionChangeEvent,
}

/**
 * A device with nothing on it, as a browser that was just installed. It lasts until
 * `vi.unstubAllGlobals`; pages that are loaded meanwhile share it.
 */
export function freshDevice(): void {
  for (const [name, found] of Object.entries(CLASSES)) vi.stubGlobal(name, found)
  vi.stubGlobal('indexedDB', new IDBFactory())
}
