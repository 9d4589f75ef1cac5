import type { RouteName } from '#contract/routes.ts'
import { type Change, readAll, readRow, writeRows, writeRowsAnyhow } from './device-store.ts'
import type { CopyNote, Pack } from './device-tables.ts'

/** Copies of answers that are the same for whoever asks. */
export const FOR_ANYONE = 'anyone'

/** Copies that belong to nothing taken offline go after this time. */
const LOOSE_COPIES_STAY_MS = 30 * 24 * 3_600_000

export interface Copy {
  readonly note: CopyNote
  readonly content: string | Blob
}

export interface NewCopy {
  readonly personId: string
  readonly route: RouteName
  readonly path: string
  readonly content: string | Blob
}

const keyOfCopy = (personId: string, path: string): string => `${personId} ${path}`

/**
 * Keeps an answer as the person's copy, in place of an older one.
 *
 * @throws the browser's error where the device does not take it
 */
export async function keepCopy(copy: NewCopy, nowMs = Date.now()): Promise<CopyNote> {
  const { personId, route, path, content } = copy
  const key = keyOfCopy(personId, path)
  const sizeBytes = typeof content === 'string' ? new Blob([content]).size : content.size
  const keptAt = new Date(nowMs).toISOString()
  const note: CopyNote = { key, personId, route, path, keptAt, sizeBytes }
  await writeRows([
    { table: 'copies', put: note },
    { table: 'contents', put: { key, content } },
  ])
  return note
}

export async function findCopy(personId: string, path: string): Promise<Copy | null> {
  const key = keyOfCopy(personId, path)
  const note = await readRow('copies', key)
  const content = note && (await readRow('contents', key))?.content
  return note && content !== undefined ? { note, content } : null
}

export async function copiesOf(personId: string): Promise<CopyNote[]> {
  return (await readAll('copies')).filter((note) => note.personId === personId)
}

/** Lets go of copies: of what the person may not see any longer, or does not want. */
export async function dropCopies(personId: string, paths: readonly string[]): Promise<void> {
  const changes = paths.flatMap((path) => withContent(keyOfCopy(personId, path)))
  if (changes.length > 0) await writeRowsAnyhow(changes)
}

export async function packsOf(personId: string): Promise<Pack[]> {
  return (await readAll('packs')).filter((pack) => pack.personId === personId)
}

export async function isInPack(personId: string, path: string): Promise<boolean> {
  return (await packsOf(personId)).some(({ paths }) => paths.includes(path))
}

const idOfPack = (personId: string, key: string): string => `${personId} ${key}`

/** @throws the browser's error where the device does not take it */
export async function keepPack(pack: Omit<Pack, 'id'>): Promise<void> {
  const put = { ...pack, id: idOfPack(pack.personId, pack.key) }
  await writeRows([{ table: 'packs', put }])
}

/** Takes a pack off the device, with those of its copies that belong to no other. */
export async function dropPack(personId: string, key: string): Promise<void> {
  const packs = await packsOf(personId)
  const others = new Set(packs.filter((pack) => pack.key !== key).flatMap(({ paths }) => paths))
  const own = packs.find((pack) => pack.key === key)?.paths ?? []
  await dropCopies(
    personId,
    own.filter((path) => !others.has(path)),
  )
  await writeRowsAnyhow([{ table: 'packs', drop: idOfPack(personId, key) }])
}

/** Takes everything of a person off the device, but for what they entered and was not sent. */
export async function dropAllOf(personId: string): Promise<void> {
  const copies = await copiesOf(personId)
  const packs = await packsOf(personId)
  await writeRowsAnyhow([
    ...copies.flatMap(({ key }) => withContent(key)),
    ...packs.map(({ id }): Change => ({ table: 'packs', drop: id })),
  ])
}

/** Lets go of old copies that belong to nothing taken offline, whoever's they are. */
export async function dropOldCopies(nowMs = Date.now()): Promise<void> {
  const packs = await readAll('packs')
  const packed = new Set(
    packs.flatMap(({ personId, paths }) => paths.map((path) => keyOfCopy(personId, path))),
  )
  const isOld = ({ key, keptAt }: CopyNote) =>
    !packed.has(key) && nowMs - Date.parse(keptAt) > LOOSE_COPIES_STAY_MS
  const old = (await readAll('copies')).filter(isOld)
  if (old.length > 0) await writeRowsAnyhow(old.flatMap(({ key }) => withContent(key)))
}

function withContent(key: string): Change[] {
  return [
    { table: 'copies', drop: key },
    { table: 'contents', drop: key },
  ]
}
