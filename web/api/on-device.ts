import { useEffect, useState } from 'react'
import { connection } from '../device/connection.ts'
import { copiesOf, dropPack, findCopy, packsOf } from '../device/copies.ts'
import { onTableChange } from '../device/device-store.ts'
import type { CopyNote, Pack } from '../device/device-tables.ts'
import { deviceTrouble } from '../device/device-troubles.ts'
import { lastPerson, personHere } from '../device/person.ts'
import { useShared } from '../device/shared-value.ts'
import { newVersion, type ShellState, shell } from '../device/shell.ts'
import { measureRoom, type StorageRoom, storageRoom } from '../device/storage-room.ts'
import { addressOfAttachment } from './attachments.ts'
import { warningsOf } from './device-warnings.ts'
import { fileInOutbox } from './outbox.ts'
import { type OnProgress, type TakenOffline, takeToDevice } from './take-offline.ts'

/**
 * Takes everything that a job or a feeder needs to the device, in place of what is there of it.
 *
 * @throws Error in plain words; nothing half is left behind
 */
export function takeOffline(
  what: TakenOffline,
  onProgress?: OnProgress,
  signal?: AbortSignal,
): Promise<void> {
  return takeToDevice(what, onProgress, signal)
}

export interface OnDevice {
  readonly key: string
  readonly words: string
  readonly feederId: string
  readonly jobId?: string
  /** When the oldest part of it came from the server. */
  readonly keptAt: string
  readonly sizeBytes: number
}

const GATHER_MS = 200

/** What the person took offline and has on this device. */
export function useOnDevice(): readonly OnDevice[] {
  const personId = useShared(personHere)
  const [list, setList] = useState<readonly OnDevice[]>([])
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined
    let isLeft = false
    const read = async () => {
      const next = personId === null ? [] : await listOnDevice(personId)
      if (!isLeft) setList(next)
    }
    const leave = onTableChange((table) => {
      if (table !== 'packs' && table !== 'copies') return
      clearTimeout(timer)
      timer = setTimeout(() => void read(), GATHER_MS)
    })
    void read()
    return () => {
      isLeft = true
      clearTimeout(timer)
      leave()
    }
  }, [personId])
  return list
}

/** What a person has on the device, with its size and its age. */
export async function listOnDevice(personId: string): Promise<OnDevice[]> {
  const copies = new Map((await copiesOf(personId)).map((note) => [note.path, note]))
  return (await packsOf(personId)).map((pack) => sized(pack, copies))
}

function sized(pack: Pack, copies: ReadonlyMap<string, CopyNote>): OnDevice {
  const own = pack.paths.flatMap((path) => copies.get(path) ?? [])
  const { key, words, feederId, jobId } = pack
  const times = own.map(({ keptAt }) => keptAt).sort()
  const sizeBytes = own.reduce((sum, note) => sum + note.sizeBytes, 0)
  return { key, words, feederId, jobId, keptAt: times[0] ?? '', sizeBytes }
}

/** Takes what was taken offline off the device; what was entered and not sent stays. */
export async function dropFromDevice(key: string): Promise<void> {
  const personId = await lastPerson()
  if (personId !== null) await dropPack(personId, key)
  await measureRoom()
}

export interface Connection {
  /** Whether the server answered when it was asked last. */
  readonly isOnline: boolean
  readonly answersFrom: 'server' | 'device'
  /** Age of the oldest copy that is shown in place of an answer. */
  readonly copyFrom: string | null
  /** How far the device's clock is ahead of the server's, to about half a second. */
  readonly clockSkewMs: number | null
  readonly storage: StorageRoom | null
  readonly shell: ShellState
  /** Loads the newer version of the pages that waits. */
  readonly newVersion: (() => void) | null
  /** What the person should know of the device, in plain words; mostly nothing. */
  readonly warnings: readonly string[]
}

export function useConnection(): Connection {
  const { isHere, copyFrom, clockSkewMs } = useShared(connection)
  const storage = useShared(storageRoom)
  const trouble = useShared(deviceTrouble)
  return {
    isOnline: isHere,
    answersFrom: isHere && copyFrom === null ? 'server' : 'device',
    copyFrom,
    clockSkewMs,
    storage,
    shell: useShared(shell),
    newVersion: useShared(newVersion),
    warnings: warningsOf({ trouble, clockSkewMs, storage }),
  }
}

/**
 * Address of an attached file: of its copy on the device where there is one, otherwise of the
 * server; null until that is known.
 */
export function useFileAddress(attachmentId: string): string | null {
  const [address, setAddress] = useState<string | null>(null)
  useEffect(() => {
    let isLeft = false
    let made: string | null = null
    const show = async () => {
      const file = await fileOnDevice(attachmentId)
      if (isLeft) return
      made = file && URL.createObjectURL(file)
      setAddress(made ?? addressOfAttachment(attachmentId))
    }
    void show()
    return () => {
      isLeft = true
      if (made) URL.revokeObjectURL(made)
    }
  }, [attachmentId])
  return address
}

/** A file that waits in the outbox, or was taken offline. */
async function fileOnDevice(attachmentId: string): Promise<Blob | null> {
  const waiting = await fileInOutbox(attachmentId)
  if (waiting) return waiting
  const personId = await lastPerson()
  const copy =
    personId === null ? null : await findCopy(personId, addressOfAttachment(attachmentId))
  return copy && typeof copy.content !== 'string' ? copy.content : null
}
