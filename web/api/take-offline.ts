import type { Attachment } from '#contract/attachments.ts'
import { mayDo } from '#contract/rights.ts'
import type { RouteInput, RouteOutput } from '#contract/route.ts'
import { type RouteName, routes } from '#contract/routes.ts'
import { copiesOf, dropCopies, keepPack, packsOf } from '../device/copies.ts'
import { isFull } from '../device/device-troubles.ts'
import { NEEDED_TO_START } from '../device/kept-routes.ts'
import { lastPerson } from '../device/person.ts'
import { askToStay, measureRoom } from '../device/storage-room.ts'
import { askAndKeep } from './ask-or-copy.ts'
import { requestOf } from './ask-server.ts'
import { goingOnAfterSignIn } from './call.ts'
import { knownMe } from './signed-in.ts'

export type TakenOffline = { readonly jobId: string } | { readonly feederId: string }
export type OnProgress = (done: number, all: number, words: string) => void

const KEY_PARTS = { job: 'job:', feeder: 'feeder:' } as const

/** Takes things to the device one after the other, and counts them. */
class Taking {
  readonly paths: string[] = []
  readonly #onProgress: OnProgress | undefined
  readonly #signal: AbortSignal | undefined
  #done = 0
  #all = 0

  constructor(onProgress: OnProgress | undefined, signal: AbortSignal | undefined) {
    this.#onProgress = onProgress
    this.#signal = signal
  }

  expect(more: number): void {
    this.#all += more
  }

  /** Asks the server, whatever is on the device already, and waits until the copy is safe. */
  async take<Name extends RouteName>(
    words: string,
    name: Name,
    input: RouteInput<(typeof routes)[Name]>,
  ): Promise<RouteOutput<(typeof routes)[Name]>> {
    this.#signal?.throwIfAborted()
    this.#onProgress?.(this.#done, this.#all, words)
    const ask = () => askAndKeep(name, input, { signal: this.#signal, isToBeKept: true })
    const answer = await goingOnAfterSignIn(name, ask, this.#signal)
    if (!NEEDED_TO_START.includes(name)) {
      this.paths.push(requestOf(routes[name], input, null).path)
    }
    this.#done += 1
    this.#onProgress?.(this.#done, this.#all, words)
    return answer
  }
}

/**
 * Takes everything that a job or a feeder needs to the device: records, map, drawings' data and
 * photos. What is there already is replaced. Where it ends early nothing half is left behind.
 *
 * @throws Error in plain words: no answer, no room, not allowed; the reason of `signal` where it was cancelled
 */
export async function takeToDevice(
  what: TakenOffline,
  onProgress?: OnProgress,
  signal?: AbortSignal,
): Promise<void> {
  const personId = await lastPerson()
  if (personId === null) throw new Error('Nobody is signed in. Sign in, then take it offline.')
  await askToStay()
  const before = new Set((await copiesOf(personId)).map(({ path }) => path))
  const taking = new Taking(onProgress, signal)
  try {
    await takeStart(taking)
    const pack =
      'jobId' in what ? await takeJob(taking, what.jobId) : await takeFeeder(taking, what)
    await keepPack({ ...pack, personId, paths: taking.paths })
  } catch (error) {
    const packed = (await packsOf(personId)).flatMap(({ paths }) => paths)
    const isNew = (path: string) => !before.has(path) && !packed.includes(path)
    await dropCopies(personId, taking.paths.filter(isNew))
    throw isFull(error) ? noRoom() : error
  } finally {
    await measureRoom()
  }
}

/** What no page comes up without; it belongs to everything that is taken offline. */
async function takeStart(taking: Taking): Promise<void> {
  taking.expect(4)
  await taking.take('Who is signed in', 'getMe', {})
  await taking.take('Settings', 'getSettings', {})
  await taking.take('Names', 'listNames', {})
  await taking.take('List of feeders', 'listFeeders', {})
}

interface TakenPack {
  readonly key: string
  readonly words: string
  readonly feederId: string
  readonly jobId?: string
}

async function takeJob(taking: Taking, jobId: string): Promise<TakenPack> {
  taking.expect(1)
  const { job } = await taking.take('The job', 'getJob', { params: { jobId } })
  const { feederId, plan, title } = job
  const feeder = await takeRecords(taking, feederId)
  if (feeder.version !== job.feederVersion) {
    const query = { version: job.feederVersion }
    taking.expect(1)
    await taking.take('Feeder as planned on', 'getFeeder', { params: { feederId }, query })
  }
  const poles = new Set(plan.poles.map(({ pole }) => pole))
  const items = feeder.protections.filter(({ pole }) => poles.has(pole)).map(({ id }) => id)
  const holders = new Set([...poles, ...items, jobId])
  await takeFiles(
    taking,
    feeder.attachments.filter((file) => holders.has(file.attachedToId)),
  )
  return { key: KEY_PARTS.job + jobId, words: `Job “${title}”`, feederId, jobId }
}

async function takeFeeder(
  taking: Taking,
  { feederId }: { readonly feederId: string },
): Promise<TakenPack> {
  const feeder = await takeRecords(taking, feederId)
  const open = feeder.jobs.filter(({ state }) => state !== 'closed')
  taking.expect(open.length)
  for (const { id, title } of open) {
    await taking.take(`Job “${title}”`, 'getJob', { params: { jobId: id } })
  }
  await takeFiles(taking, feeder.attachments)
  return { key: KEY_PARTS.feeder + feederId, words: `Feeder ${feeder.name}`, feederId }
}

interface TakenRecords {
  readonly name: string
  readonly version: number
  readonly attachments: readonly Attachment[]
  readonly protections: readonly { readonly id: string; readonly pole: string }[]
  readonly jobs: RouteOutput<(typeof routes)['listJobs']>
}

/** The feeder with its land and all that is recorded of it, as far as the person may see it. */
async function takeRecords(taking: Taking, feederId: string): Promise<TakenRecords> {
  const ofFeeder = { params: { feederId } }
  const maySee = {
    jobs: mayAsk('listJobs'),
    birds: mayAsk('listNests'),
  }
  taking.expect(7 + (maySee.jobs ? 3 : 0) + (maySee.birds ? 2 : 0))
  const { feeder, version } = await taking.take('Feeder', 'getFeeder', ofFeeder)
  const { place, name } = feeder.header
  if (place === undefined) taking.expect(-1)
  else await taking.take('Map', 'getLand', { params: { placeId: place } })
  const protections = await taking.take('Guards and covers', 'listProtections', ofFeeder)
  await taking.take('Pole tops', 'listPoleTops', ofFeeder)
  await taking.take('What bird work goes by', 'getBirdSettings', {})
  await taking.take('Programmes', 'listProgrammes', ofFeeder)
  if (maySee.birds) {
    await taking.take('Nests', 'listNests', ofFeeder)
    await taking.take('Finds', 'listIncidents', ofFeeder)
  }
  if (maySee.jobs) {
    await taking.take('Orders of steps', 'listSequences', {})
    await taking.take('Jobs', 'listJobs', {})
  }
  const jobs = maySee.jobs
    ? await taking.take('Jobs of the feeder', 'listJobs', { query: { feederId } })
    : []
  const attachments = await taking.take('List of photos', 'listAttachments', ofFeeder)
  return { name, version, attachments, protections, jobs }
}

async function takeFiles(taking: Taking, files: readonly Attachment[]): Promise<void> {
  const neededBytes = files.reduce((sum, { sizeBytes }) => sum + sizeBytes, 0)
  const room = await measureRoom()
  if (room && room.freeBytes !== null && neededBytes > room.freeBytes) throw noRoom()
  taking.expect(files.length)
  for (const [index, { id }] of files.entries()) {
    const words = `Photos and reports: ${index + 1} of ${files.length}`
    await taking.take(words, 'getAttachmentFile', { params: { attachmentId: id } })
  }
}

function mayAsk(name: RouteName): boolean {
  const { right } = routes[name]
  return right === 'anyone' || (knownMe()?.roles ?? []).some((role) => mayDo({ role }, right))
}

function noRoom(): Error {
  return new Error(
    'There is not enough room on the device for this. Make room, or take something else off the device, and try again.',
  )
}
