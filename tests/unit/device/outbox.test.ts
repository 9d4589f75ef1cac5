import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import type { DraftJobBody, Job } from '#contract/jobs.ts'
import { routes } from '#contract/routes.ts'
import {
  CREW,
  SMALL,
  SUPERVISOR,
  startTestServer,
  type TestServer,
} from '../../http/test-server.ts'
import { photo } from '../../support/sample-files.ts'
import { type DevicePage, openPage } from './device-page.ts'
import { freshDevice } from './fresh-device.ts'
import { type Wire, wireTo } from './wire.ts'

let server: TestServer
let crew: string
let supervisor: string
let shipped: ReadonlySet<string>
beforeAll(async () => {
  server = await startTestServer()
  crew = (await server.headersOf(CREW)).cookie ?? ''
  supervisor = (await server.headersOf(SUPERVISOR)).cookie ?? ''
  const all = await server.call(routes.listProtections, inFeeder)
  shipped = new Set(all.map(({ id }) => id))
})
afterAll(() => server.stop())

let wire: Wire
let open: DevicePage[] = []
beforeEach(() => {
  freshDevice()
  wire = wireTo(server.address, crew)
})
afterEach(async () => {
  wire.letGo()
  for (const page of open) await page.end()
  open = []
  vi.unstubAllGlobals()
  for (const { id, version } of await added()) {
    const params = { ...inFeeder.params, protectionId: id }
    await server.call(routes.deleteProtection, { params, query: { version } }, SUPERVISOR)
  }
})

async function page(): Promise<DevicePage> {
  const opened = await openPage()
  open.push(opened)
  return opened
}

async function enteredPage(): Promise<DevicePage> {
  const opened = await page()
  await opened.enter()
  return opened
}

const inFeeder = { params: { feederId: SMALL } }
const cover = (what: string) =>
  ({ pole: 'P3', kind: 'cover', what, state: 'on', on: '2026-05-01' }) as const
const onJob = (what: string) => ({ what, jobId: 'job-1', feederId: SMALL })
const enterCover = ({ outbox }: DevicePage, what: string) =>
  outbox.putInOutbox('addProtection', { ...inFeeder, body: cover(what) }, onJob(what))
/** What was recorded beside what came with the feeder. */
const added = async () => {
  const all = await server.call(routes.listProtections, inFeeder)
  return all.filter(({ id }) => !shipped.has(id))
}
const recorded = async () => (await added()).map(({ what }) => what).sort()
const states = async (from: DevicePage) => (await from.items()).map(({ state }) => state)
const writes = () => wire.sent.filter((line) => line.startsWith('POST'))

const LOOK: DraftJobBody['origin'] = { kind: 'by hand', jobKind: 'inspection', poles: ['P2'] }

async function issueJob(title: string): Promise<Job> {
  const body = { title, origin: LOOK }
  let job = await server.call(routes.draftJob, { ...inFeeder, body }, SUPERVISOR)
  for (const to of ['approved', 'issued'] as const) {
    const params = { jobId: job.id }
    job = await server.call(
      routes.moveJob,
      { params, body: { version: job.version, to } },
      SUPERVISOR,
    )
  }
  return job
}

const startJob = ({ outbox }: DevicePage, { id, version }: Job) =>
  outbox.putInOutbox(
    'moveJob',
    { params: { jobId: id }, body: { to: 'in the field', version } },
    { what: 'Work started', jobId: id },
  )
let entryCount = 0
const remark = ({ outbox }: DevicePage, jobId: string, text: string, pole = 'P2') => {
  const at = new Date().toISOString()
  const entry = { kind: 'remark', id: `remark-${jobId}-${entryCount++}`, at, pole, text } as const
  const input = { params: { jobId }, body: { entries: [entry] } }
  return outbox.putInOutbox('sendEntries', input, { what: text, jobId })
}
const entered = async (jobId: string) =>
  (await server.call(routes.getJob, { params: { jobId } }, CREW)).entries.length

describe('what is entered without signal', () => {
  it('waits on the device and is sent in the order of entering once there is some', async () => {
    const here = await enteredPage()
    wire.weather = 'no signal'
    for (const what of ['first', 'second', 'third']) await enterCover(here, what)
    await here.outbox.sendOutbox()
    expect(await states(here)).toEqual(['waiting', 'waiting', 'waiting'])
    expect(await recorded()).toEqual([])

    const order: string[] = []
    wire.onSend = (line, body) => {
      if (line.startsWith('POST')) order.push(JSON.parse(String(body)).what)
    }
    wire.weather = 'clear'
    await here.outbox.sendOutbox()
    expect(await states(here)).toEqual(['kept', 'kept', 'kept'])
    expect(order).toEqual(['first', 'second', 'third'])
    expect(await recorded()).toEqual(['first', 'second', 'third'])
  })

  it('is there after the page was closed, also where the server is away at the next start', async () => {
    const first = await enteredPage()
    wire.weather = 'no signal'
    await enterCover(first, 'kept over night')
    first.close()

    const second = await enteredPage()
    expect((await second.items()).map(({ what }) => what)).toEqual(['kept over night'])
    wire.weather = 'clear'
    await second.outbox.sendOutbox()
    expect(await recorded()).toEqual(['kept over night'])
  })

  it('is sent by itself at the next start', async () => {
    const first = await enteredPage()
    wire.weather = 'no signal'
    await enterCover(first, 'from yesterday')
    await first.outbox.sendOutbox()
    first.close()
    wire.weather = 'clear'
    const second = await enteredPage()
    await vi.waitFor(async () => expect(await states(second)).toEqual(['kept']))
    expect(await recorded()).toEqual(['from yesterday'])
  })

  it('is sent by itself when the server is found again', async () => {
    const here = await enteredPage()
    wire.weather = 'no signal'
    await enterCover(here, 'by itself')
    await here.outbox.sendOutbox()
    wire.weather = 'clear'
    await here.connection.askWhetherHere()
    await vi.waitFor(async () => expect(await states(here)).toEqual(['kept']))
  })

  it('stays waiting where a network’s own page or a proxy answers in place of the server', async () => {
    const here = await enteredPage()
    for (const weather of ['somebody else answers', 'bad gateway'] as const) {
      wire.weather = weather
      await enterCover(here, weather)
      await here.outbox.sendOutbox()
    }
    expect(await states(here)).toEqual(['waiting', 'waiting'])
    wire.weather = 'clear'
    await here.outbox.sendOutbox()
    expect(await recorded()).toHaveLength(2)
  })

  it('goes to the record once, however often the answer is lost', async () => {
    const here = await enteredPage()
    wire.weather = 'answers lost'
    await enterCover(here, 'once')
    await here.outbox.sendOutbox()
    await here.outbox.sendOutbox()
    expect(await states(here)).toEqual(['waiting'])
    wire.weather = 'clear'
    await here.outbox.sendOutbox()
    expect(writes().length).toBeGreaterThan(1)
    expect(await states(here)).toEqual(['kept'])
    expect(await recorded()).toEqual(['once'])
  })

  it('goes to the record once where the browser dies between sending and the answer', async () => {
    const dying = await enteredPage()
    wire.weather = 'silence'
    await enterCover(dying, 'cut off')
    await vi.waitFor(() => expect(writes()).toHaveLength(1))
    expect(await states(dying)).toEqual(['sending'])
    dying.close()

    wire.weather = 'clear'
    const next = await enteredPage()
    await next.outbox.sendOutbox()
    expect(await states(next)).toEqual(['kept'])
    // What the dead window had sent arrives late.
    wire.letGo()
    expect(await recorded()).toEqual(['cut off'])
  })

  it('of two windows is sent once', async () => {
    const one = await enteredPage()
    const two = await enteredPage()
    wire.weather = 'no signal'
    await enterCover(one, 'from the one')
    await enterCover(two, 'from the other')
    wire.weather = 'clear'
    await Promise.all([one.outbox.sendOutbox(), two.outbox.sendOutbox()])
    await vi.waitFor(async () => expect(await states(two)).toEqual(['kept', 'kept']))
    expect(await recorded()).toEqual(['from the one', 'from the other'])
  })

  it('entered twice under the same id is one', async () => {
    const here = await enteredPage()
    const about = { ...onJob('the same'), id: 'made-on-device-1' }
    const input = { ...inFeeder, body: cover('the same') }
    await here.outbox.putInOutbox('addProtection', input, about)
    await here.outbox.putInOutbox('addProtection', input, about)
    await here.outbox.sendOutbox()
    expect(await here.items()).toHaveLength(1)
    expect(await recorded()).toEqual(['the same'])
  })

  it('carries photos, which survive the closing of the page', async () => {
    const here = await enteredPage()
    wire.weather = 'no signal'
    const file = new File([Uint8Array.from(await photo('jpeg'))], 'pole.jpg', {
      type: 'image/jpeg',
    })
    const query = { attachedTo: 'pole', attachedToId: 'P3', fileName: 'pole.jpg' } as const
    await here.outbox.putInOutbox('attach', { ...inFeeder, query, file }, onJob('A photo'))
    here.close()
    const next = await enteredPage()
    wire.weather = 'clear'
    await next.outbox.sendOutbox()
    expect(await states(next)).toEqual(['kept'])
    const [kept] = await server.call(routes.listAttachments, inFeeder)
    expect(kept).toMatchObject({ fileName: 'pole.jpg', mediaType: 'image/jpeg' })
  })
})

describe('what the server does not take', () => {
  const change = (id: string, version: number, what: string) => ({
    params: { feederId: SMALL, protectionId: id },
    body: { ...cover(what), version },
  })
  const addOnServer = () =>
    server.call(routes.addProtection, { ...inFeeder, body: cover('as it was') }, SUPERVISOR)

  it('since somebody changed the same record is kept beside what stands there now', async () => {
    const here = await enteredPage()
    const { id } = await addOnServer()
    await server.call(routes.changeProtection, change(id, 1, 'by the supervisor'), SUPERVISOR)
    const mine = change(id, 1, 'by the crew')
    await here.outbox.putInOutbox('changeProtection', mine, onJob('Change'))
    await here.outbox.sendOutbox()
    const [item] = await here.items()
    expect(item).toMatchObject({
      state: 'conflict',
      input: mine,
      current: { what: 'by the supervisor', version: 2 },
    })

    await here.outbox.answerConflict(item?.id ?? '', change(id, 2, 'what both agree on'))
    await here.outbox.sendOutbox()
    expect(await states(here)).toEqual(['kept'])
    expect(await recorded()).toEqual(['what both agree on'])
  })

  it('as it breaks a rule says why, and what was entered after it goes on', async () => {
    const here = await enteredPage()
    const nowhere = { ...inFeeder, body: { ...cover('on no pole'), pole: 'P99' } }
    await here.outbox.putInOutbox('addProtection', nowhere, onJob('On no pole'))
    await enterCover(here, 'on a pole')
    await here.outbox.sendOutbox()
    const [refused, kept] = await here.items()
    expect(refused).toMatchObject({ state: 'refused', problem: expect.stringContaining('P99') })
    expect(kept?.state).toBe('kept')
  })

  it('stays listed until the person clears it, and is never dropped before', async () => {
    const here = await enteredPage()
    const nowhere = { ...inFeeder, body: { ...cover('on no pole'), pole: 'P99' } }
    const { id } = await here.outbox.putInOutbox('addProtection', nowhere, onJob('On no pole'))
    await here.outbox.sendOutbox()
    await here.outbox.clearKept()
    expect(await states(here)).toEqual(['refused'])
    await here.outbox.setAside(id)
    expect((await here.items())[0]?.setAsideAt).toBeDefined()
    await here.outbox.clearKept()
    expect(await here.items()).toEqual([])
  })

  it('is brought forward where it was entered on top of another unsent change', async () => {
    const here = await enteredPage()
    const { id } = await addOnServer()
    wire.weather = 'no signal'
    for (const what of ['one', 'two', 'three']) {
      await here.outbox.putInOutbox('changeProtection', change(id, 1, what), onJob(what))
    }
    wire.weather = 'clear'
    await here.outbox.sendOutbox()
    expect(await states(here)).toEqual(['kept', 'kept', 'kept'])
    expect(await recorded()).toEqual(['three'])
  })

  it('for want of a session waits and says so', async () => {
    const here = await enteredPage()
    wire.cookie = ''
    await enterCover(here, 'later')
    await here.outbox.sendOutbox()
    const [item] = await here.items()
    expect(item).toMatchObject({ state: 'waiting', problem: expect.stringContaining('Sign in') })

    wire.cookie = crew
    await here.noteSignedIn(await here.call('getMe', {}))
    await vi.waitFor(async () => expect(await states(here)).toEqual(['kept']))
  })
})

describe('what is entered of one job', () => {
  const inField = async (title: string) => {
    const { id, version } = await issueJob(title)
    const body = { to: 'in the field', version } as const
    return server.call(routes.moveJob, { params: { jobId: id }, body }, CREW)
  }
  const requestsOf = (jobId: string) =>
    writes()
      .filter((line) => line.includes(jobId))
      .map((line) => line.split('/').at(-1))

  it('goes in one request, and each entry is told what became of it', async () => {
    const here = await enteredPage()
    const job = await inField('Together')
    wire.weather = 'no signal'
    await remark(here, job.id, 'first')
    await remark(here, job.id, 'of another pole', 'P9')
    await remark(here, job.id, 'last')
    await here.outbox.sendOutbox()
    wire.weather = 'clear'
    wire.sent.length = 0
    await here.outbox.sendOutbox()
    expect(requestsOf(job.id)).toEqual(['entries'])
    expect(await states(here)).toEqual(['kept', 'refused', 'kept'])
    const [first, second] = await here.items()
    expect(second?.problem).toContain('P9')
    expect(first?.answer).toMatchObject({ outcomes: [{ outcome: 'kept' }] })
    expect(await entered(job.id)).toBe(2)
  })

  it('keeps its order around moves of the job', async () => {
    const here = await enteredPage()
    const job = await issueJob('In order')
    wire.weather = 'no signal'
    await startJob(here, job)
    await remark(here, job.id, 'one')
    await remark(here, job.id, 'two')
    const params = { jobId: job.id }
    for (const to of ['returned', 'in the field'] as const) {
      const body = { to, version: job.version, reason: 'The gate is locked' }
      await here.outbox.putInOutbox('moveJob', { params, body }, { what: to, jobId: job.id })
    }
    await remark(here, job.id, 'three')
    await here.outbox.sendOutbox()
    wire.weather = 'clear'
    wire.sent.length = 0
    await here.outbox.sendOutbox()
    expect(requestsOf(job.id)).toEqual(['move', 'entries', 'move', 'move', 'entries'])
    expect(new Set(await states(here))).toEqual(new Set(['kept']))
    expect(await entered(job.id)).toBe(3)
  })

  it('is sent one by one where the server takes none because of one of them', async () => {
    const here = await enteredPage()
    const job = await inField('One at fault')
    wire.weather = 'no signal'
    await remark(here, job.id, 'before')
    await remark(here, job.id, '')
    await remark(here, job.id, 'after')
    await here.outbox.sendOutbox()
    wire.weather = 'clear'
    await here.outbox.sendOutbox()
    expect(await states(here)).toEqual(['kept', 'refused', 'kept'])
    expect(await entered(job.id)).toBe(2)
  })

  it('is recorded once where the answer to all of it is lost and more was entered meanwhile', async () => {
    const here = await enteredPage()
    const job = await inField('Lost answer')
    wire.weather = 'no signal'
    for (const text of ['one', 'two']) await remark(here, job.id, text)
    wire.weather = 'answers lost'
    await here.outbox.sendOutbox()
    expect(await states(here)).toEqual(['waiting', 'waiting'])
    await remark(here, job.id, 'three')
    wire.weather = 'clear'
    await here.outbox.sendOutbox()
    expect(await states(here)).toEqual(['kept', 'kept', 'kept'])
    expect(await entered(job.id)).toBe(3)
  })
})

describe('what was entered on top of a move that somebody met at a desk', () => {
  /** The job is started and a remark made without signal, and retitled at a desk meanwhile. */
  async function meet(here: DevicePage) {
    const job = await issueJob('Look at P2')
    const other = await issueJob('Look at P2 again')
    wire.weather = 'no signal'
    await startJob(here, job)
    await remark(here, job.id, 'The gate is locked')
    await startJob(here, other)
    await remark(here, other.id, 'The gate is open')
    const params = { jobId: job.id }
    const body = { title: 'Look at P2 first', version: job.version }
    const current = await server.call(routes.changeJob, { params, body }, SUPERVISOR)
    wire.weather = 'clear'
    await here.outbox.sendOutbox()
    return { job, current }
  }

  it('is held back until that is settled and then goes in its order, while other jobs go on', async () => {
    const here = await enteredPage()
    const { job, current } = await meet(here)
    expect(await states(here)).toEqual(['conflict', 'waiting', 'kept', 'kept'])
    await here.outbox.sendOutbox()
    expect(await states(here)).toEqual(['conflict', 'waiting', 'kept', 'kept'])

    const [move] = await here.items()
    const body = { to: 'in the field', version: current.version }
    await here.outbox.answerConflict(move?.id ?? '', { params: { jobId: job.id }, body })
    await here.outbox.sendOutbox()
    expect(await states(here)).toEqual(['kept', 'kept', 'kept', 'kept'])
    expect(await entered(job.id)).toBe(1)
  })

  it('is sent once the move is set aside, and says why where it is not taken then', async () => {
    const here = await enteredPage()
    const { job } = await meet(here)
    const [move] = await here.items()
    await here.outbox.setAside(move?.id ?? '')
    await vi.waitFor(async () =>
      expect(await states(here)).toEqual(['refused', 'refused', 'kept', 'kept']),
    )
    const [, held] = await here.items()
    expect(held?.setAsideAt).toBeUndefined()
    expect(held?.problem).toBeTruthy()
    expect(await entered(job.id)).toBe(0)
  })
})

describe('a window that slept while it sent', () => {
  it('changes nothing by what it hears late of an item that another one has sent meanwhile', async () => {
    const sleeper = await enteredPage()
    wire.weather = 'silence'
    await enterCover(sleeper, 'once')
    await vi.waitFor(() => expect(writes()).toHaveLength(1))
    const other = await enteredPage()
    // What is sent from here on gets through; what the sleeper waits for does not.
    wire.weather = 'clear'
    await other.outbox.sendOutbox()
    expect(await states(other)).toEqual(['kept'])
    wire.weather = 'no signal'
    wire.letGo()
    await sleeper.outbox.sendOutbox()
    expect(await states(other)).toEqual(['kept'])
    expect(await recorded()).toEqual(['once'])
  })
})

describe('another person on the same device', () => {
  it('neither sees nor sends what the first one entered; it waits for them', async () => {
    const first = await enteredPage()
    wire.weather = 'no signal'
    await enterCover(first, 'by the crew')
    await first.outbox.sendOutbox()
    wire.weather = 'clear'
    first.close()
    wire.cookie = supervisor
    const second = await enteredPage()
    await second.outbox.sendOutbox()
    expect(await second.items()).toEqual([])
    expect(await recorded()).toEqual([])

    second.close()
    wire.cookie = crew
    const third = await enteredPage()
    await third.outbox.sendOutbox()
    expect(await states(third)).toEqual(['kept'])
    const [kept] = await added()
    expect(kept?.changedBy.id).toBe(CREW.id)
  })

  it('who signs in in another window sends nothing of the first one’s from there', async () => {
    const ofCrew = await enteredPage()
    wire.cookie = supervisor
    const other = await enteredPage()
    await enterCover(ofCrew, 'by the crew')
    await ofCrew.outbox.sendOutbox()
    await other.outbox.sendOutbox()
    expect(await states(ofCrew)).toEqual(['waiting'])
    expect(await recorded()).toEqual([])
  })

  it('still finds it waiting after the first one has signed out', async () => {
    const here = await enteredPage()
    wire.weather = 'no signal'
    await enterCover(here, 'not sent yet')
    await here.outbox.sendOutbox()
    const ofCrew = await here.items()
    expect(ofCrew).toHaveLength(1)
    await here.copies.dropAllOf(CREW.id)
    expect(await here.items()).toEqual(ofCrew)
    wire.weather = 'clear'
    await here.outbox.sendOutbox()
    expect(await recorded()).toEqual(['not sent yet'])
  })
})
