import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ROLES, type Role } from '#contract/actor.ts'
import { type RouteName, routes } from '#contract/routes.ts'
import { type Headers, hireOneOfEach, type StaffedServer, startStaffedServer } from './staff.ts'

const EVERYBODY = 'planner coordinator crew supervisor reader administrator'
const NOT_READERS = 'planner coordinator crew supervisor administrator'
const ADMINISTRATOR = 'administrator'

/**
 * Who may use each route, written down once more and by hand, so that a slip in the table of rights
 * or a row with the wrong right does not go unseen. A new route has to be added here.
 */
const EXPECTED: Readonly<Record<RouteName, string>> = {
  getLive: 'anyone',
  getReady: 'anyone',
  getSettings: 'anyone',
  getOpenapi: 'anyone',
  enterDemo: 'anyone',
  signIn: 'anyone',
  giveSecondFactor: 'anyone',
  getInvitation: 'anyone',
  acceptInvitation: 'anyone',
  signOut: 'anyone',

  listFeeders: EVERYBODY,
  getFeeder: EVERYBODY,
  getFindings: EVERYBODY,
  solveVoltage: EVERYBODY,
  getLand: EVERYBODY,
  getStudy: EVERYBODY,
  followStudy: EVERYBODY,
  listStudies: EVERYBODY,
  followChanges: EVERYBODY,
  listProposals: EVERYBODY,
  getProposal: EVERYBODY,
  listProtections: EVERYBODY,
  listPoleTops: EVERYBODY,
  getBirdSettings: EVERYBODY,
  listAttachments: EVERYBODY,
  getAttachmentFile: EVERYBODY,

  getMe: EVERYBODY,
  listSessions: EVERYBODY,
  endSession: EVERYBODY,
  endOtherSessions: EVERYBODY,
  changePassword: EVERYBODY,
  startSecondFactor: EVERYBODY,
  confirmSecondFactor: EVERYBODY,
  removeSecondFactor: EVERYBODY,
  listNames: EVERYBODY,

  listNests: NOT_READERS,
  listIncidents: NOT_READERS,
  listProgrammes: NOT_READERS,
  getHistory: NOT_READERS,
  listWork: NOT_READERS,
  getWork: NOT_READERS,
  followWork: NOT_READERS,
  listDeleted: NOT_READERS,
  takeOutHistory: 'supervisor administrator',
  startHistoryReport: 'supervisor administrator',
  cancelHistoryReport: 'supervisor administrator',
  getReportFile: 'supervisor administrator',

  takeInFeeder: 'planner coordinator',
  startImport: 'planner coordinator',
  cancelImport: 'planner coordinator',
  startStudy: 'planner supervisor',
  startStudies: 'planner supervisor',
  cancelStudy: 'planner supervisor',
  cancelStudies: 'planner supervisor',
  saveProposal: 'planner supervisor',
  changeProposal: 'planner supervisor',
  deleteProposal: 'planner supervisor',
  restoreProposal: 'planner supervisor',
  addProtection: 'coordinator crew supervisor',
  changeProtection: 'coordinator crew supervisor',
  deleteProtection: 'coordinator supervisor',
  restoreProtection: 'coordinator supervisor',
  choosePoleTop: 'coordinator crew supervisor',
  deletePoleTop: 'coordinator crew supervisor',
  restorePoleTop: 'coordinator crew supervisor',
  addNest: 'coordinator supervisor',
  changeNest: 'coordinator supervisor',
  deleteNest: 'coordinator supervisor',
  restoreNest: 'coordinator supervisor',
  addIncident: 'coordinator crew supervisor',
  changeIncident: 'coordinator crew supervisor',
  deleteIncident: 'coordinator supervisor',
  restoreIncident: 'coordinator supervisor',
  keepProgramme: 'coordinator supervisor',
  changeProgramme: 'coordinator supervisor',
  deleteProgramme: 'coordinator supervisor',
  restoreProgramme: 'coordinator supervisor',
  changeBirdSettings: 'coordinator supervisor',
  takeOutBirdPoles: 'coordinator supervisor',
  takeOutIncidents: 'coordinator supervisor',
  listJobs: NOT_READERS,
  getJob: NOT_READERS,
  listSequences: NOT_READERS,
  draftJob: 'planner coordinator supervisor',
  changeJob: 'planner coordinator supervisor',
  moveJob: 'planner coordinator crew supervisor',
  sendEntries: 'crew supervisor',
  putAsLeft: 'crew supervisor',
  deleteJob: 'planner coordinator supervisor',
  restoreJob: 'planner coordinator supervisor',
  putSequence: 'supervisor',
  withdrawSequence: 'supervisor',
  attach: 'planner coordinator crew supervisor',
  deleteAttachment: 'planner coordinator supervisor',
  restoreAttachment: 'planner coordinator supervisor',

  purge: ADMINISTRATOR,
  getMeasures: ADMINISTRATOR,
  listPeople: ADMINISTRATOR,
  invitePerson: ADMINISTRATOR,
  renewInvitation: ADMINISTRATOR,
  changePerson: ADMINISTRATOR,
  listTokens: ADMINISTRATOR,
  makeToken: ADMINISTRATOR,
  revokeToken: ADMINISTRATOR,
}

/** Seven passwords are hashed, slowly on purpose, and a busy machine has other work. */
const HIRING_WITHIN_MS = 240_000

let server: StaffedServer
let staff: Record<Role, Headers>
beforeAll(async () => {
  server = await startStaffedServer()
  staff = await hireOneOfEach(server)
}, HIRING_WITHIN_MS)
afterAll(() => server.stop())

/** Signing out comes last, since nothing can be asked after it. */
const names = (Object.keys(routes) as RouteName[]).sort(
  (a, b) => Number(a === 'signOut') - Number(b === 'signOut'),
)

/** Whether the door lets the request in; what the handler then says of it does not matter. */
async function isLetIn(name: RouteName, headers: Headers): Promise<boolean> {
  const { method, path } = routes[name]
  const leave = new AbortController()
  const answer = await fetch(server.address + path.replaceAll(/\{\w+\}/g, 'none'), {
    method,
    headers: { ...headers, 'content-type': 'application/json' },
    ...(method !== 'GET' && { body: '{}' }),
    signal: leave.signal,
  })
  const code = answer.ok ? null : ((await answer.json()) as { code: string }).code
  leave.abort()
  expect(answer.status).not.toBe(500)
  return code !== 'sign-in-needed' && code !== 'not-allowed'
}

async function letIn(headers: Headers): Promise<RouteName[]> {
  const found: RouteName[] = []
  for (const name of names) if (await isLetIn(name, headers)) found.push(name)
  return found
}

const allowed = (who: string) =>
  names.filter((name) => EXPECTED[name] === 'anyone' || EXPECTED[name].split(' ').includes(who))

it('has a line for every route of the server, and no other', () => {
  expect(Object.keys(EXPECTED).sort()).toEqual(Object.keys(routes).sort())
})

describe('every route of the server', () => {
  it.each(ROLES)('lets in a %s where the table says so, and nowhere else', async (role) => {
    expect(await letIn(staff[role])).toEqual(allowed(role))
  })

  it('lets in nobody but where anyone may come', async () => {
    expect(await letIn({})).toEqual(allowed('anyone'))
  })

  it('lets in a machine by the rights of its token, and by no other right of its role', async () => {
    const body = {
      name: 'Outage map',
      role: 'supervisor' as const,
      rights: ['see feeders and solve voltages' as const, 'take the history out' as const],
      days: 1,
    }
    const { secret } = await server.call(routes.makeToken, { body }, server.administrator)
    const machine = { authorization: `Bearer ${secret}` }
    const rightOf = (name: RouteName) => routes[name].right as string
    expect(await letIn(machine)).toEqual(
      names.filter((name) => [...body.rights, 'anyone'].includes(rightOf(name))),
    )
  })

  it('lets in nobody whose account was closed', async () => {
    const { person, headers } = await server.hire('leaver@utility.example', ['supervisor'])
    expect(await isLetIn('listFeeders', headers)).toBe(true)
    const input = { params: { personId: person.id }, body: { ...person, state: 'closed' as const } }
    await server.call(routes.changePerson, input, server.administrator)
    expect(await letIn(headers)).toEqual(allowed('anyone'))
  })
})

describe('a person of two roles', () => {
  it('acts in the one that the request names, and in no role of others', async () => {
    const { headers } = await server.hire('both@utility.example', ['reader', 'planner'])
    const as = (role: string) => ({ ...headers, 'x-acting-role': role })
    expect(await isLetIn('saveProposal', headers)).toBe(false)
    expect(await isLetIn('saveProposal', as('planner'))).toBe(true)
    expect(await isLetIn('getHistory', as('reader'))).toBe(false)
    expect(await isLetIn('listPeople', as('administrator'))).toBe(false)
  })

  it('loses a role at the next request after it was taken away', async () => {
    const { person, headers } = await server.hire('moved@utility.example', ['planner'])
    expect(await isLetIn('saveProposal', headers)).toBe(true)
    const body = { ...person, roles: ['reader' as const] }
    const input = { params: { personId: person.id }, body }
    await server.call(routes.changePerson, input, server.administrator)
    expect(await isLetIn('saveProposal', headers)).toBe(false)
    expect(await isLetIn('listFeeders', headers)).toBe(true)
  })
})
