import { randomUUID } from 'node:crypto'
import { setTimeout as sleep } from 'node:timers/promises'
import autocannon from 'autocannon'
import { ACTING_ROLE_HEADER } from '#contract/actor.ts'
import { enterDemo } from '../../support/enter-demo.ts'
import { Times } from './percentiles.ts'

export const FEEDER = 'skillet'
const STUDIED = 'thimble'
const PLACE = 'brindlemark'

/** What one person does in a minute, on average: asked for by the pages as they are used. */
const PER_MINUTE = { feeder: 1, land: 0.5, panel: 12, history: 2, edit: 2 }

/** Told of an answer that never came. */
const TIMEOUT_MS = 10_000

export interface Load {
  readonly url: string
  readonly people: number
  readonly seconds: number
}

export interface Measured {
  readonly times: ReadonlyMap<string, Times>
  /** Changes that reached the streams of all people. */
  readonly changesTold: number
  /** Seconds from asking for the siting study to its end; NaN where it did not end. */
  readonly studyS: number
}

type Headers = Readonly<Record<string, string>>

/** All people at once for so many seconds, over loopback only. */
export async function simulatePeople(load: Load): Promise<Measured> {
  const planner = await headersOf(load.url, 'planner')
  const coordinator = await headersOf(load.url, 'coordinator')
  const times = new Map<string, Times>()
  const timesOf = (kind: string) => {
    const known = times.get(kind) ?? new Times()
    times.set(kind, known)
    return known
  }
  const end = AbortSignal.timeout(load.seconds * 1000)
  const streams = followChanges(load, planner, end)
  const [, , studyS] = await Promise.all([
    Promise.all(readings(load.people).map((each) => read(load, each, planner, timesOf(each.kind)))),
    Promise.all(editors(load, coordinator, timesOf('edit'), end)),
    runStudy(load.url, planner, end),
  ])
  const told = await Promise.all(streams)
  return { times, changesTold: told.reduce((sum, each) => sum + each, 0), studyS }
}

async function headersOf(url: string, role: 'planner' | 'coordinator'): Promise<Headers> {
  return {
    cookie: await enterDemo(url, role),
    [ACTING_ROLE_HEADER]: role,
    'accept-encoding': 'gzip',
  }
}

interface Reading {
  readonly kind: string
  readonly paths: readonly string[]
  readonly perSecond: number
}

function readings(people: number): Reading[] {
  const perSecond = (perMinute: number) => Math.max(1, Math.round((people * perMinute) / 60))
  const feeder = `/api/feeders/${FEEDER}`
  const panel = ['/api/me', '/api/feeders', `${feeder}/protections`, `${feeder}/proposals`]
  return [
    { kind: 'feeder', paths: [feeder], perSecond: perSecond(PER_MINUTE.feeder) },
    { kind: 'land', paths: [`/api/places/${PLACE}/land`], perSecond: perSecond(PER_MINUTE.land) },
    { kind: 'panel', paths: panel, perSecond: perSecond(PER_MINUTE.panel) },
    {
      kind: 'history',
      paths: [`/api/history/feeder/${FEEDER}`],
      perSecond: perSecond(PER_MINUTE.history),
    },
  ]
}

/**
 * The requests of one second are sent together by whoever sends them, at the beginning of it; so
 * there are many who send few each, and they begin at different moments.
 */
const MOST_PER_SENDER = 2

/** Asks at an even rate. */
async function read(load: Load, reading: Reading, headers: Headers, times: Times): Promise<void> {
  const { perSecond } = reading
  const senders = Math.ceil(perSecond / MOST_PER_SENDER)
  const sending = Array.from({ length: senders }, async (_, index) => {
    await sleep((1000 * index) / senders)
    const rate = Math.min(MOST_PER_SENDER, perSecond - index * MOST_PER_SENDER)
    await send(load, reading, rate, headers, times)
  })
  await Promise.all(sending)
}

function send(
  { url, seconds }: Load,
  { paths }: Reading,
  rate: number,
  headers: Headers,
  times: Times,
): Promise<void> {
  const options = {
    url,
    connections: rate,
    overallRate: rate,
    duration: seconds - 1,
    headers: { ...headers },
    requests: paths.map((path) => ({ method: 'GET' as const, path })),
  }
  return new Promise((resolve, reject) => {
    // Its errors hold those that came too late as well.
    const instance = autocannon(options, (error, { errors }) => {
      if (error) return reject(error)
      for (let lost = 0; lost < errors; lost++) times.add(TIMEOUT_MS, false)
      resolve()
    })
    instance.on('response', (_client, status, _bytes, timeMs) => times.add(timeMs, status < 400))
  })
}

interface Guard {
  readonly id: string
  readonly version: number
  readonly [member: string]: unknown
}

/** A tenth of the people at any time, each with a cover of their own, so that no change is stale. */
function editors(load: Load, headers: Headers, times: Times, end: AbortSignal): Promise<void>[] {
  const count = Math.max(1, Math.round(load.people / 10))
  const pauseMs = (60_000 * count) / (load.people * PER_MINUTE.edit)
  return Array.from({ length: count }, () => edit(load.url, headers, pauseMs, times, end))
}

async function edit(
  url: string,
  headers: Headers,
  pauseMs: number,
  times: Times,
  end: AbortSignal,
): Promise<void> {
  const address = `${url}/api/feeders/${FEEDER}/protections`
  const pole = await somePole(url, headers)
  const body = { pole, kind: 'cover', what: 'Bushing cover', state: 'planned', on: '2026-05-01' }
  let guard = await write(address, 'POST', headers, body, times)
  for (let round = 0; guard !== null && !end.aborted; round++) {
    await sleep(pauseMs * (0.5 + (round % 10) / 10))
    const changed = { ...body, note: `Round ${round}`, version: guard.version }
    guard = await write(`${address}/${guard.id}`, 'PUT', headers, changed, times)
  }
}

async function somePole(url: string, headers: Headers): Promise<string> {
  const answer = await fetch(`${url}/api/feeders/${FEEDER}`, { headers })
  const { feeder } = (await answer.json()) as { feeder: { poles: { id: string }[] } }
  const [pole] = feeder.poles
  if (!pole) throw new Error('Expected poles on the feeder, got none.')
  return pole.id
}

async function write(
  address: string,
  method: 'POST' | 'PUT',
  headers: Headers,
  body: object,
  times: Times,
): Promise<Guard | null> {
  const start = performance.now()
  const answer = await fetch(address, {
    method,
    headers: { ...headers, 'content-type': 'application/json', 'idempotency-key': randomUUID() },
    body: JSON.stringify(body),
  })
  const text = await answer.text()
  times.add(performance.now() - start, answer.ok)
  return answer.ok ? (JSON.parse(text) as Guard) : null
}

/** One open stream for each person; each gives the number of changes that it was told. */
function followChanges(load: Load, headers: Headers, end: AbortSignal): Promise<number>[] {
  return Array.from({ length: load.people }, async () => {
    let told = 0
    try {
      const answer = await fetch(`${load.url}/api/changes`, { headers, signal: end })
      const text = answer.body?.pipeThrough(new TextDecoderStream()) ?? []
      for await (const part of text) told += part.split('event: change').length - 1
    } catch (error) {
      if (!end.aborted) throw error
    }
    return told
  })
}

/** One siting study while the others work. */
async function runStudy(url: string, headers: Headers, end: AbortSignal): Promise<number> {
  const start = performance.now()
  const answer = await fetch(`${url}/api/feeders/${STUDIED}/studies`, {
    method: 'POST',
    headers: { ...headers, 'content-type': 'application/json', 'idempotency-key': randomUUID() },
    body: JSON.stringify({ request: { banks: 1 } }),
  })
  const { studyId } = (await answer.json()) as { studyId: string }
  while (!end.aborted) {
    await sleep(250)
    const asked = await fetch(`${url}/api/studies/${studyId}`, { headers })
    const { state } = (await asked.json()) as { state: string }
    if (state === 'done') return (performance.now() - start) / 1000
  }
  return Number.NaN
}
