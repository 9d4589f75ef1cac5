import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import type { Job, JobSummary } from '#contract/jobs.ts'
import type { ProgrammeRecord } from '#contract/programmes.ts'
import type { SavedProposal } from '#contract/proposals.ts'
import type { AsLeft } from '#domain/jobs/as-left.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { type AskAs, askAs } from '../support/change-out-job.ts'
import { keepPicture, seriousFindings } from '../support/desk-page.ts'
import { deskSession } from '../support/desk-session.ts'
import { proposalToKeep } from '../support/kept-proposal.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { entriesThrough } from '../support/walk-job.ts'

const FEEDER = 'handing'
const session = deskSession({}, { isWithoutLand: true })
const feeder = smallFeeder({ id: FEEDER, name: 'Handing feeder', poles: 9 })
let ask: AskAs

beforeAll(async () => {
  ask = askAs(session.url())
  await ask('planner', '/api/feeders', 'POST', { layers: layersOfFeeder(feeder) })
})

const keepProposal = (name: string): Promise<SavedProposal> =>
  ask('planner', `/api/feeders/${FEEDER}/proposals`, 'POST', proposalToKeep(feeder, name))

async function draftFrom(name: string): Promise<Job> {
  const { id } = await keepProposal(name)
  return ask('planner', `/api/feeders/${FEEDER}/jobs`, 'POST', {
    title: name,
    origin: { kind: 'proposal', proposalId: id },
  })
}

async function moved(job: Job, to: Job['state'], reason?: string): Promise<Job> {
  return ask('supervisor', `/api/jobs/${job.id}/move`, 'POST', {
    version: job.version,
    to,
    ...(reason && { reason }),
  })
}

const openDesk = (person: string, rest = '') =>
  session.open(
    `&feeder=${FEEDER}&person=${person}${rest}`,
    {},
    person as 'planner' | 'coordinator' | 'crew' | 'supervisor',
  )

const stateOf = (page: Page, state: string) =>
  page.getByRole('region', { name: 'Job', exact: true }).getByText(state, { exact: true }).first()

describe('a kept proposal that is handed to the crew', () => {
  it('is drafted with its whole plan, and says from then on that it is a job', async () => {
    await keepProposal('Bank at the bend')
    const planner = await openDesk('planner')
    await planner.page.getByRole('button', { name: 'Bank at the bend', exact: true }).click()
    await planner.page.getByRole('button', { name: 'Hand to crew' }).click()
    const form = planner.page.getByRole('form', { name: 'Hand over the proposal Bank at the bend' })
    await form.getByLabel('Crew', { exact: true }).fill('north truck')
    // Looking elsewhere does not lose what was typed.
    await form.getByRole('button', { name: 'Not now' }).click()
    await planner.page.getByRole('button', { name: 'Hand to crew' }).click()
    expect(await form.getByLabel('Crew', { exact: true }).inputValue()).toBe('north truck')
    expect(await form.getByLabel('Title').inputValue()).toBe('Bank at the bend')
    await form.getByRole('button', { name: 'Draft the job' }).click()
    await stateOf(planner.page, 'Drafted').waitFor()
    await planner.page.getByRole('heading', { name: 'What meters should show' }).waitFor()
    expect(await seriousFindings(planner.page)).toEqual([])
    await keepPicture(planner.page, 'job-drafted')
    await planner.page.getByRole('button', { name: 'Back to the proposal' }).click()
    await planner.page.getByRole('heading', { name: 'It is a job' }).waitFor()
    expect(await planner.page.getByRole('button', { name: 'Hand to crew' }).count()).toBe(0)
    expect(planner.complaints).toEqual([])
  })

  it('is approved and issued by the supervisor, and then stands at the crew without a reload', async () => {
    await draftFrom('Bank at the school')
    const crew = await openDesk('crew')
    await crew.page.getByRole('region', { name: 'Jobs', exact: true }).waitFor()
    const { page, complaints } = await openDesk('supervisor')
    await page.getByRole('button', { name: /^Bank at the school/ }).click()
    await page.getByRole('button', { name: 'Approve' }).click()
    await stateOf(page, 'Approved').waitFor()
    expect(await crew.page.getByText('Bank at the school').count()).toBe(0)
    await page.getByRole('button', { name: 'Issue to the crew' }).click()
    await stateOf(page, 'Issued').waitFor()
    await crew.page.getByText('Bank at the school').waitFor()
    expect([...complaints, ...crew.complaints]).toEqual([])
  })

  it('comes back with a reason, which the planner reads, and goes out again', async () => {
    const job = await draftFrom('Bank at the ford')
    await moved(job, 'approved')
    const planner = await openDesk('planner', `&view=job~${job.id}`)
    await stateOf(planner.page, 'Approved').waitFor()
    const supervisor = await openDesk('supervisor', `&view=job~${job.id}`)
    await supervisor.page.getByRole('button', { name: 'Return with a reason' }).click()
    const form = supervisor.page.getByRole('form', { name: 'Return with a reason' })
    await form.getByRole('button', { name: 'Return with a reason' }).click()
    await form.getByText('Say why, in a few words.').waitFor()
    await form.getByLabel('Reason').fill('The ford is under water until May.')
    await form.getByRole('button', { name: 'Return with a reason' }).click()
    await stateOf(supervisor.page, 'Returned').waitFor()

    await planner.page.getByText('The ford is under water until May.').waitFor()
    await planner.page.getByRole('button', { name: 'Edit title, due date, crew and note' }).click()
    const head = planner.page.getByRole('form', { name: /^Title, note, due date and crew/ })
    await head.getByLabel('Due on').fill('2027-06-01')
    await head.getByRole('button', { name: 'Save', exact: true }).click()
    await head.waitFor({ state: 'detached' })
    await planner.page.getByRole('button', { name: 'Take back as a draft' }).click()
    await stateOf(planner.page, 'Drafted').waitFor()
    await planner.page.getByRole('button', { name: /^History of the job/ }).click()
    await planner.page
      .getByText(/from approved to returned, because: The ford is under water until May\./)
      .waitFor()
    for (const { complaints } of [supervisor, planner]) expect(complaints).toEqual([])
  })

  it('stands in the model once it is closed, and the planner reads where it was built otherwise', async () => {
    const draft = await draftFrom('Bank at the mill')
    const issued = await moved(await moved(draft, 'approved'), 'issued')
    const inField = await moved(issued, 'in the field')
    await ask('crew', `/api/jobs/${draft.id}/entries`, 'POST', {
      entries: entriesThrough(draft.plan),
    })
    await ask('crew', `/api/jobs/${draft.id}/as-left`, 'PUT', {
      version: 0,
      asLeft: asLeftOf(draft),
    })
    await moved(inField, 'work done')
    const { page, complaints } = await openDesk('supervisor', `&view=job~${draft.id}`)
    await page.getByRole('heading', { name: 'Field work' }).waitFor()
    const left = page.getByRole('region', { name: 'What was left' })
    await left.getByText('Built otherwise than planned').waitFor()
    expect(await seriousFindings(page)).toEqual([])
    await keepPicture(page, 'job-work-done')
    await page.getByRole('button', { name: /^Close the job/ }).click()
    const sure = page.getByRole('form', { name: 'Close the job' })
    await sure.getByRole('button', { name: 'Close the job' }).click()
    await stateOf(page, 'Closed').waitFor()
    const planner = await openDesk('planner', `&proposal=${proposalOf(draft)}`)
    const built = planner.page.getByRole('region', { name: 'As built against proposed' })
    await built.getByText('Built otherwise than planned').waitFor()
    await built.getByText(/The bank stands in the model since version 2/).waitFor()
    expect([...complaints, ...planner.complaints]).toEqual([])
  })
})

describe('a round of a kept programme', () => {
  it('is handed to the crew, shows its state in the round, and its poles wait in the list', async () => {
    const { id, name } = await ask<ProgrammeRecord>(
      'coordinator',
      `/api/feeders/${FEEDER}/programmes`,
      'POST',
      { name: 'Spring', note: '', state: 'in force', programme: PROGRAMME },
    )
    const { page, complaints } = await openDesk('coordinator', `&view=year~${id}`)
    await page.getByRole('button', { name: 'Hand round 1 to the crew' }).click()
    const form = page.getByRole('form', { name: `Hand over round 1 of ${name}` })
    expect(await form.getByLabel('Due on').inputValue()).toBe('2026-06-30')
    await form.getByRole('button', { name: 'Draft the job' }).click()
    await stateOf(page, 'Drafted').waitFor()
    await page.getByRole('button', { name: 'Back to the programme' }).click()
    const ofRound = page.getByRole('list', { name: 'Job of round 1' })
    await ofRound.getByText('Drafted').waitFor()
    const jobs = await ask<JobSummary[]>('coordinator', `/api/jobs?feederId=${FEEDER}`)
    const job = jobs.find(({ origin }) => origin.kind === 'programme')
    expect(job?.poles).toEqual(['P4', 'P5'])
    await page.getByRole('tab', { name: 'Poles' }).click()
    await page.getByText('Waits for the job “Spring, round 1”').first().waitFor()
    expect(await seriousFindings(page)).toEqual([])
    expect(complaints).toEqual([])
  })
})

const PROGRAMME = {
  request: { budgetUsd: 5000, from: '2026-06-01', to: '2026-06-30' },
  poles: ['P4', 'P5'].map((pole) => ({
    pole,
    measures: [],
    costUsd: 500,
    reduction: 1,
    round: 0,
    notes: [],
  })),
  rounds: [
    {
      poles: ['P4', 'P5'],
      driveM: 1000,
      crewDays: 1,
      earliest: '2026-06-01',
      latest: '2026-06-30',
    },
  ],
  leftOut: [],
  costUsd: 1000,
  reduction: 2,
  reductionPossible: 4,
  gap: 0,
  curve: [{ budgetUsd: 1000, reduction: 2, poles: 2 }],
}

function proposalOf({ origin }: Job): string {
  if (origin.kind !== 'proposal') throw new Error(`Expected a proposal, got ${origin.kind}.`)
  return origin.proposalId
}

/** As planned, but for a larger unit on A. */
function asLeftOf({ plan }: Job): AsLeft {
  const regulator = plan.bank?.regulator
  if (!regulator) throw new Error('Expected a plan with a bank.')
  return {
    on: '2026-11-20',
    crew: ['K. Lane', 'M. Ortiz'],
    units: (['A', 'B', 'C'] as const).map((phase) => ({
      phase,
      serialNumber: `4711-${phase}`,
      nameplate: '',
      ratingKva: phase === 'A' ? 114.3 : regulator.ratingKva,
      ratingA: phase === 'A' ? 150 : regulator.ratingA,
      tapLeft: 4,
      counterLeft: 12,
    })),
    settings: {
      bandCentreV: regulator.bandCentreV,
      bandwidthV: regulator.bandwidthV,
      delayS: regulator.delayS,
      rV: regulator.rV,
      xV: regulator.xV,
      ptRatio: regulator.ptRatio,
      ctPrimaryA: regulator.ctPrimaryA,
      maxRaise: regulator.maxRaise,
      maxLower: regulator.maxLower,
    },
    measures: [],
    remarks: '',
    signedBy: 'K. Lane',
    signaturePath: '',
  }
}
