import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { IDEMPOTENCY_HEADER, type Role } from '#contract/actor.ts'
import { buildRequest } from '#contract/build-request.ts'
import { IncidentBody } from '#contract/incidents.ts'
import { DraftJobBody } from '#contract/jobs.ts'
import { NestBody } from '#contract/nests.ts'
import { ChoosePoleTopBody } from '#contract/pole-tops.ts'
import { KeepProgrammeBody } from '#contract/programmes.ts'
import { SaveProposalBody } from '#contract/proposals.ts'
import { rightsOf } from '#contract/rights.ts'
import { type Route, type RouteInput, takesKey } from '#contract/route.ts'
import { type RouteName, routes } from '#contract/routes.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { type Headers, type StaffedServer, startStaffedServer } from '../people/staff.ts'
import { pdf } from '../support/sample-files.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { SMALL } from './test-server.ts'

/** A write that is ready to be asked for. */
interface Write {
  readonly as: Headers
  readonly input: object
}

let server: StaffedServer
let administrator: Headers
let planner: Headers
let supervisor: Headers

beforeAll(async () => {
  server = await startStaffedServer()
  administrator = server.administrator
  planner = await tokenFor('planner')
  supervisor = await tokenFor('supervisor')
  await server.call(routes.takeInFeeder, { body: { layers: layersOf(SMALL) } }, planner)
})
afterAll(() => server.stop())

async function tokenFor(role: Role): Promise<Headers> {
  const body = { name: role, role, rights: rightsOf({ role }), days: 1 }
  const { secret } = await server.call(routes.makeToken, { body }, administrator)
  return { authorization: `Bearer ${secret}` }
}

const inFeeder = { params: { feederId: SMALL } }
const cover = { pole: 'P3', kind: 'cover', what: 'cap', state: 'on', on: '2026-05-01' } as const
const layersOf = (id: string) => layersOfFeeder(smallFeeder({ id }))
const fileOf = (text: string) => new Blob([Uint8Array.from(pdf(text))])
const onPole = { attachedTo: 'pole', attachedToId: 'P2', fileName: 'report.pdf' } as const

const BANK = {
  ...{ pole: 'P3', span: 'S3', phases: 'ABC', ratingKva: 76.2, ratingA: 100, peakA: 71 },
  ...{ distanceM: 5000, bandCentreV: 124, bandwidthV: 2, delayS: 45, windingType: 'B' },
  ...{ ptRatio: 60, ctPrimaryA: 100, taps: { peak: { A: 9, B: 9, C: 8 } } },
}
const PROPOSAL = {
  name: 'Bank at P3',
  note: '',
  request: {},
  proposal: {
    ...{ rank: 1, banks: [BANK], after: { cases: {} }, flags: [], marginVolts120: 1 },
    ...{ reason: 'Brings the end back inside.', energyLossKwhPerYear: 90_000 },
    ...{ lossSavedUsdPerYear: 500, costUsd: 70_000, presentWorthUsd: 7000, nearAlternatives: [] },
  },
}

async function madeProtection() {
  const { id } = await server.call(routes.addProtection, { ...inFeeder, body: cover }, supervisor)
  return { params: { feederId: SMALL, protectionId: id } }
}

async function madeProposal() {
  const body = SaveProposalBody.parse(PROPOSAL)
  const { id } = await server.call(routes.saveProposal, { ...inFeeder, body }, supervisor)
  return { params: { proposalId: id } }
}

async function madeAttachment() {
  const input = { ...inFeeder, query: onPole, file: fileOf(crypto.randomUUID()) }
  const { id } = await server.call(routes.attach, input, supervisor)
  return { params: { attachmentId: id } }
}

const NEST = {
  ...{ at: [-107, 43.6], species: 'osprey', bufferM: 400 },
  ...{ seasonFrom: '04-01', seasonTo: '08-31' },
} as const
const FIND = {
  ...{ at: [-107, 43.6], foundOn: '2026-05-01' },
  ...{ species: 'osprey', cause: 'unknown' },
} as const
const PROGRAMME = {
  name: 'First year',
  programme: {
    request: { budgetUsd: 5000, from: '2026-08-01', to: '2026-10-31' },
    ...{ poles: [], rounds: [], leftOut: [], curve: [] },
    ...{ costUsd: 0, reduction: 0, reductionPossible: 0, gap: 0 },
  },
}
const POLE_TOP = { params: { feederId: SMALL, poleId: 'P3' } }

async function madeNest() {
  const input = { ...inFeeder, body: NestBody.parse(NEST) }
  const { id } = await server.call(routes.addNest, input, supervisor)
  return { params: { feederId: SMALL, nestId: id } }
}

async function madeFind() {
  const input = { ...inFeeder, body: IncidentBody.parse(FIND) }
  const { id } = await server.call(routes.addIncident, input, supervisor)
  return { params: { feederId: SMALL, incidentId: id } }
}

async function madeProgramme() {
  const input = { ...inFeeder, body: KeepProgrammeBody.parse(PROGRAMME) }
  const { id } = await server.call(routes.keepProgramme, input, supervisor)
  return { params: { feederId: SMALL, programmeId: id } }
}

/** What stands for the pole before, gone or not, decides on the version that is next. */
async function standingPoleTop(): Promise<number> {
  const tops = await server.call(routes.listPoleTops, inFeeder, supervisor)
  const standing = tops.find(({ id }) => id === POLE_TOP.params.poleId)
  if (standing) return standing.version
  const body = ChoosePoleTopBody.parse({ framing: 'flat arm', version: 0 })
  return (await server.call(routes.choosePoleTop, { ...POLE_TOP, body }, supervisor)).version
}

const INSPECTION = {
  title: 'Look at P2',
  origin: { kind: 'by hand', jobKind: 'inspection', poles: ['P2'] },
}
const REMARK = {
  ...{ id: 'entry-1', at: '2026-05-01T08:00:00.000Z', pole: 'P2' },
  ...{ kind: 'remark', text: 'Gate stood open.' },
} as const
const AS_LEFT = { on: '2026-05-01', crew: ['Sam'], units: [], measures: [] }

async function madeJob() {
  const { id } = await server.call(
    routes.draftJob,
    { ...inFeeder, body: DraftJobBody.parse(INSPECTION) },
    supervisor,
  )
  return { params: { jobId: id } }
}

async function jobInTheField() {
  const made = await madeJob()
  let version = 1
  for (const to of ['approved', 'issued', 'in the field'] as const) {
    const moved = await server.call(routes.moveJob, { ...made, body: { version, to } }, supervisor)
    version = moved.version
  }
  return made
}

async function shippedSequence() {
  const [record] = await server.call(routes.listSequences, {}, supervisor)
  if (!record) throw new Error('Expected orders of steps that come along.')
  return record
}

const first = { query: { version: 1 } }
const second = { query: { version: 2 } }
const bySupervisor = (input: object): Write => ({ as: supervisor, input })

/** For each row of the table that takes a key, a write that would go through once. */
const WRITES: Readonly<Partial<Record<RouteName, () => Promise<Write>>>> = {
  takeInFeeder: async () => ({ as: planner, input: { body: { layers: layersOf('taken-in') } } }),
  startImport: async () => ({ as: planner, input: { body: { layers: layersOf('imported') } } }),
  startHistoryReport: async () => bySupervisor({ body: { feederId: SMALL } }),
  startStudy: async () => bySupervisor({ ...inFeeder, body: { request: {} } }),
  startStudies: async () => bySupervisor({ body: { feederIds: [SMALL], request: {} } }),
  addProtection: async () => bySupervisor({ ...inFeeder, body: cover }),
  changeProtection: async () =>
    bySupervisor({ ...(await madeProtection()), body: { ...cover, what: 'hood', version: 1 } }),
  deleteProtection: async () => bySupervisor({ ...(await madeProtection()), ...first }),
  restoreProtection: async () => {
    const made = await madeProtection()
    await server.call(routes.deleteProtection, { ...made, ...first }, supervisor)
    return bySupervisor({ ...made, ...second })
  },
  addNest: async () => bySupervisor({ ...inFeeder, body: NEST }),
  changeNest: async () =>
    bySupervisor({ ...(await madeNest()), body: { ...NEST, note: 'seen', version: 1 } }),
  deleteNest: async () => bySupervisor({ ...(await madeNest()), ...first }),
  restoreNest: async () => {
    const made = await madeNest()
    await server.call(routes.deleteNest, { ...made, ...first }, supervisor)
    return bySupervisor({ ...made, ...second })
  },
  addIncident: async () => bySupervisor({ ...inFeeder, body: FIND }),
  changeIncident: async () =>
    bySupervisor({ ...(await madeFind()), body: { ...FIND, note: 'ring', version: 1 } }),
  deleteIncident: async () => bySupervisor({ ...(await madeFind()), ...first }),
  restoreIncident: async () => {
    const made = await madeFind()
    await server.call(routes.deleteIncident, { ...made, ...first }, supervisor)
    return bySupervisor({ ...made, ...second })
  },
  choosePoleTop: async () => {
    const version = await standingPoleTop()
    return bySupervisor({ ...POLE_TOP, body: { framing: 'vertical corner', version } })
  },
  deletePoleTop: async () =>
    bySupervisor({ ...POLE_TOP, query: { version: await standingPoleTop() } }),
  restorePoleTop: async () => {
    const query = { version: await standingPoleTop() }
    const { version } = await server.call(routes.deletePoleTop, { ...POLE_TOP, query }, supervisor)
    return bySupervisor({ ...POLE_TOP, query: { version } })
  },
  keepProgramme: async () => bySupervisor({ ...inFeeder, body: PROGRAMME }),
  changeProgramme: async () =>
    bySupervisor({ ...(await madeProgramme()), body: { name: 'Second year', version: 1 } }),
  deleteProgramme: async () => bySupervisor({ ...(await madeProgramme()), ...first }),
  restoreProgramme: async () => {
    const made = await madeProgramme()
    await server.call(routes.deleteProgramme, { ...made, ...first }, supervisor)
    return bySupervisor({ ...made, ...second })
  },
  draftJob: async () => bySupervisor({ ...inFeeder, body: INSPECTION }),
  changeJob: async () =>
    bySupervisor({ ...(await madeJob()), body: { title: 'Look at P2 again', version: 1 } }),
  moveJob: async () => bySupervisor({ ...(await madeJob()), body: { to: 'approved', version: 1 } }),
  sendEntries: async () =>
    bySupervisor({ ...(await jobInTheField()), body: { entries: [REMARK] } }),
  putAsLeft: async () =>
    bySupervisor({ ...(await jobInTheField()), body: { version: 0, asLeft: AS_LEFT } }),
  deleteJob: async () => bySupervisor({ ...(await madeJob()), ...first }),
  restoreJob: async () => {
    const made = await madeJob()
    await server.call(routes.deleteJob, { ...made, ...first }, supervisor)
    return bySupervisor({ ...made, ...second })
  },
  putSequence: async () => {
    const { sequence, version } = await shippedSequence()
    const body = { version, sequence: { ...sequence, name: 'By our own rules' } }
    return bySupervisor({ params: { sequenceId: sequence.id }, body })
  },
  withdrawSequence: async () => {
    const { sequence } = await shippedSequence()
    const own = { ...sequence, id: 'look-twice', name: 'Look twice' }
    const params = { sequenceId: own.id }
    const put = { params, body: { version: 0, sequence: own } }
    await server.call(routes.putSequence, put, supervisor)
    return bySupervisor({ params, ...first })
  },
  changeBirdSettings: async () => bySupervisor({ body: { settings: {}, version: 0 } }),
  saveProposal: async () => bySupervisor({ ...inFeeder, body: PROPOSAL }),
  changeProposal: async () =>
    bySupervisor({ ...(await madeProposal()), body: { name: 'Other', note: '', version: 1 } }),
  deleteProposal: async () => bySupervisor({ ...(await madeProposal()), ...first }),
  restoreProposal: async () => {
    const made = await madeProposal()
    await server.call(routes.deleteProposal, { ...made, ...first }, supervisor)
    return bySupervisor({ ...made, ...second })
  },
  attach: async () => bySupervisor({ ...inFeeder, query: onPole, file: fileOf('attached') }),
  deleteAttachment: async () => bySupervisor({ ...(await madeAttachment()), ...first }),
  restoreAttachment: async () => {
    const made = await madeAttachment()
    await server.call(routes.deleteAttachment, { ...made, ...first }, supervisor)
    return bySupervisor({ ...made, ...second })
  },
  purge: async () => {
    const { params } = await madeProtection()
    await server.call(routes.deleteProtection, { params, ...first }, supervisor)
    const { feederId, protectionId: subjectId } = params
    const body = { subject: 'protection', feederId, subjectId, version: 2, reason: 'A mistake' }
    return { as: administrator, input: { body } }
  },
}

const names = Object.keys(routes) as RouteName[]
const withKey = names.filter((name) => takesKey(routes[name]))
const newKey = () => crypto.randomUUID()

/** Status and body, as they come over the line. */
async function send(name: RouteName, { as, input }: Write, key: string) {
  const headers = { ...as, [IDEMPOTENCY_HEADER]: key }
  const route: Route = routes[name]
  const { path, ...request } = buildRequest(route, input as RouteInput<Route>, headers)
  const answer = await fetch(server.address + path, request)
  return { status: answer.status, body: (await answer.json()) as Record<string, unknown> }
}

const addCover = (as = supervisor, body: object = cover): Write => ({
  as,
  input: { ...inFeeder, body },
})
const covers = () => server.call(routes.listProtections, inFeeder, supervisor)

it('every write of the table that takes a key is tested here', () => {
  expect(Object.keys(WRITES).sort()).toEqual([...withKey].sort())
})

describe('a write that is sent again since its answer was lost', () => {
  it.each(withKey)('%s gives the same answer and is done once', async (name) => {
    const write = await WRITES[name]?.()
    if (!write) throw new Error(`Expected a write for ${name}.`)
    const key = newKey()
    const answers = [await send(name, write, key), await send(name, write, key)]
    expect(answers[0]?.status).toBe(routes[name].answer.status)
    expect(answers[1]).toEqual(answers[0])
  })

  it.each<RouteName>(['addProtection', 'takeInFeeder', 'attach', 'startStudy'])(
    '%s is done once where it is sent several times at the same time',
    async (name) => {
      const write = await WRITES[name]?.()
      if (!write) throw new Error(`Expected a write for ${name}.`)
      const key = newKey()
      const sent = Array.from({ length: 5 }, () => send(name, write, key))
      const answers = await Promise.all(sent)
      expect(answers[0]?.status).toBe(routes[name].answer.status)
      for (const answer of answers) expect(answer).toEqual(answers[0])
    },
  )

  it('is done once where the line broke before the answer', async () => {
    const before = (await covers()).length
    const [write, key] = [addCover(), newKey()]
    const headers = { ...supervisor, [IDEMPOTENCY_HEADER]: key }
    const { path, ...request } = buildRequest(
      routes.addProtection,
      { ...inFeeder, body: cover },
      headers,
    )
    const leaving = new AbortController()
    const lost = fetch(server.address + path, { ...request, signal: leaving.signal })
    await expect.poll(async () => (await covers()).length).toBe(before + 1)
    leaving.abort()
    await lost.catch(() => undefined)
    const { status, body } = await send('addProtection', write, key)
    expect(status).toBe(201)
    const after = await covers()
    expect(after).toHaveLength(before + 1)
    expect(after.map(({ id }) => id)).toContain(body.id)
  })
})

describe('a key', () => {
  it('is refused with other content, at another address, or with another file', async () => {
    const key = newKey()
    await send('addProtection', addCover(), key)
    const others = [
      await send('addProtection', addCover(supervisor, { ...cover, pole: 'P4' }), key),
      await send('startStudy', bySupervisor({ ...inFeeder, body: { request: {} } }), key),
    ]
    const fileKey = newKey()
    const attach = (text: string, query = onPole) =>
      send('attach', bySupervisor({ ...inFeeder, query, file: fileOf(text) }), fileKey)
    expect((await attach('one')).status).toBe(201)
    others.push(await attach('two'))
    for (const { status, body } of others) {
      expect(status).toBe(422)
      expect(body.code).toBe('key-reused')
    }
  })

  it('of one person means nothing for another', async () => {
    const key = newKey()
    const other = await tokenFor('supervisor')
    const mine = await send('addProtection', addCover(), key)
    const theirs = await send('addProtection', addCover(other), key)
    expect([mine.status, theirs.status]).toEqual([201, 201])
    expect(theirs.body.id).not.toBe(mine.body.id)
  })

  it('can be used again where the write was refused', async () => {
    const key = newKey()
    const unknown = await send('addProtection', addCover(supervisor, { ...cover, pole: 'X' }), key)
    expect(unknown.status).toBe(400)
    expect((await send('addProtection', addCover(), key)).status).toBe(201)
  })

  it('has 8 to 128 visible characters', async () => {
    for (const key of ['short', 'with a space', 'x'.repeat(129)]) {
      const { status, body } = await send('addProtection', addCover(), key)
      expect([status, body.code]).toEqual([400, 'malformed-request'])
    }
  })

  it('is left aside where an answer shows a secret once', async () => {
    const body = {
      name: 'twice',
      role: 'reader',
      rights: ['see feeders and solve voltages'],
      days: 1,
    }
    const [key, write] = [newKey(), { as: administrator, input: { body } }]
    const made = [await send('makeToken', write, key), await send('makeToken', write, key)]
    expect(made[0]?.body.secret).not.toBe(made[1]?.body.secret)
  })
})
