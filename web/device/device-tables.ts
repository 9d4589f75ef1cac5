import type { DBSchema, IDBPDatabase, IDBPTransaction, StoreNames } from 'idb'
import type { RouteName } from '#contract/routes.ts'

/** What is known of a copy without reading it. */
export interface CopyNote {
  /** Person and address, as `keyOfCopy` joins them. */
  readonly key: string
  readonly personId: string
  readonly route: RouteName
  /** Address with its query, as it was asked. */
  readonly path: string
  /** Time on the device when the server gave it. */
  readonly keptAt: string
  readonly sizeBytes: number
}

/** What a copy holds: the JSON text as it came, or a file. */
export interface CopyContent {
  readonly key: string
  readonly content: string | Blob
}

/** What a person took offline at once: the copies that belong together. */
export interface Pack {
  /** Person and what it is of. */
  readonly id: string
  readonly personId: string
  readonly key: string
  readonly words: string
  readonly feederId: string
  readonly jobId?: string
  /** Addresses of its copies. */
  readonly paths: readonly string[]
}

/** One write that waits to be sent, as it lies in the outbox. */
export interface StoredItem {
  readonly id: string
  /** Form of this record; a page that is older than the form leaves the item as it is. */
  readonly form: number
  /** Idempotency key: the id, until the person has answered a refusal or a conflict. */
  readonly key: string
  readonly personId: string
  /** Items are sent in this order. */
  readonly order: number
  readonly enteredAt: string
  readonly what: string
  readonly jobId?: string
  readonly feederId?: string
  readonly name: string
  /** Without the file, which lies beside it under the same id. */
  readonly input: unknown
  readonly hasFile: boolean
  /** Ids of unsent items of the same kind and job that this one was entered on top of. */
  readonly after: readonly string[]
  readonly state: 'waiting' | 'sending' | 'kept' | 'refused' | 'conflict'
  readonly tries: number
  readonly problem?: string
  readonly current?: unknown
  readonly answer?: unknown
  readonly setAsideAt?: string
}

export interface StoredFile {
  readonly id: string
  readonly file: Blob
}

export interface Fact {
  readonly name: string
  readonly value: string
}

export interface DeviceTables extends DBSchema {
  copies: { key: string; value: CopyNote }
  contents: { key: string; value: CopyContent }
  packs: { key: string; value: Pack }
  outbox: { key: string; value: StoredItem }
  files: { key: string; value: StoredFile }
  facts: { key: string; value: Fact }
}

export type TableName = StoreNames<DeviceTables>
export type RowOf<Name extends TableName> = DeviceTables[Name]['value']

/** Member that each table is looked up by. */
export const KEY_OF: { readonly [Name in TableName]: string & keyof RowOf<Name> } = {
  copies: 'key',
  contents: 'key',
  packs: 'id',
  outbox: 'id',
  files: 'id',
  facts: 'name',
}

/** One step of the tables on the device. */
export type DeviceStep = (
  database: IDBPDatabase<DeviceTables>,
  change: IDBPTransaction<DeviceTables, TableName[], 'versionchange'>,
) => void

/**
 * The tables as they came about. A step that was released never changes again, and none may drop
 * `outbox` or `files`: what lies there is nowhere else.
 */
export const DEVICE_STEPS: readonly DeviceStep[] = [
  (database) => {
    for (const name of Object.keys(KEY_OF) as TableName[]) {
      database.createObjectStore(name, { keyPath: KEY_OF[name] })
    }
  },
]
