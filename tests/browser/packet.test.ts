import { forward } from 'mgrs'
import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import { Job } from '#contract/jobs.ts'
import { readDemoFeeder } from '../support/demo-feeder.ts'
import { keepPicture, PHONE, seriousFindings } from '../support/desk-page.ts'
import { deskSession } from '../support/desk-session.ts'
import { type Printed, printed } from '../support/printed-page.ts'

const FEEDER = 'skillet'
const session = deskSession()
const feeder = await readDemoFeeder(FEEDER)
const bank = feeder.equipment.find(({ kind }) => kind === 'regulator')
if (!bank) throw new Error('The demo feeder has no bank.')
const real = feeder.poles.filter(({ isAnonymousNode }) => !isAnonymousNode)

async function draft(title: string, origin: unknown): Promise<Job> {
  const answer = await session.ask(`/api/feeders/${FEEDER}/jobs`, {
    method: 'POST',
    body: { title, note: 'Key of the gate at the office.', crew: 'north truck', origin },
  })
  if (!answer.ok) throw new Error(await answer.text())
  return Job.parse(await answer.json())
}

const byHand = (jobKind: string, poles: readonly string[], regulatorId?: string) => ({
  kind: 'by hand',
  jobKind,
  poles,
  ...(regulatorId && { regulatorId }),
})

/** As the national grid is read: 13T CJ 12345 67890. By the library itself, not by the page's code. */
function gridOf(poleId: string): string {
  const pole = feeder.poles.find(({ id }) => id === poleId)
  const packed = forward([...(pole?.at ?? [0, 0])], 5)
  return packed.replace(/^(\d+[A-Z])([A-Z]{2})(\d{5})(\d{5})$/, '$1 $2 $3 $4')
}

/** Type is set with ligatures and breaks lines where it likes; neither is part of what is said. */
const plain = (text: string) => text.normalize('NFKC').replaceAll(/\s+/g, '')
const allOf = ({ pages }: Printed) => plain(pages.map(({ text }) => text).join(' '))
const says = (all: string, text: string) => all.includes(plain(text))

/** The map behind it takes its time without a graphics card. */
const WITHIN_MS = 100_000

async function openPacket(job: Job): Promise<Page> {
  const { page } = await session.open(`&feeder=${FEEDER}&view=job~${job.id}`)
  page.setDefaultTimeout(WITHIN_MS)
  await page.getByRole('button', { name: 'Packet to print' }).click()
  const packet = page.getByRole('main', { name: `Packet of the job ${job.title}` })
  await packet
    .getByRole('img', { name: /pole top to scale/ })
    .first()
    .waitFor()
  return page
}

describe('the packet of a change-out', () => {
  it('prints all that the crew is handed, without a row cut by the end of a page', async () => {
    const job = await draft(
      'Change out the Anvil bank',
      byHand('change out a bank', [bank.pole], bank.id),
    )
    const page = await openPacket(job)
    expect(await seriousFindings(page)).toEqual([])
    await keepPicture(page, 'packet')
    const paper = await printed(page)
    const all = allOf(paper)
    const { plan } = job
    expect(paper.size).toContain('(letter)')

    const head = plain(paper.pages[0]?.text ?? '')
    for (const words of [job.title, `pole ${bank.pole}`]) expect(head).toContain(plain(words))
    expect(says(all, job.note)).toBe(true)
    expect(says(all, gridOf(bank.pole))).toBe(true)
    expect(says(all, 'safety rules, its switching procedure and qualified workers govern')).toBe(
      true,
    )

    for (const { what } of [...plan.hazards, ...plan.kit])
      expect({ what, is: says(all, what) }).toEqual({ what, is: true })
    expect(plan.settings.length).toBeGreaterThan(5)
    for (const { name, value } of plan.settings) {
      expect(says(all, name) && says(all, value)).toBe(true)
    }
    expect(plan.expected.length).toBeGreaterThan(0)
    for (const { caseName, readings } of plan.expected) {
      expect(says(all, caseName)).toBe(true)
      for (const { sourceV, loadVolts120 } of readings) {
        const tens = Math.round(sourceV / 10) * 10
        expect(says(all, tens.toLocaleString('en-US'))).toBe(true)
        expect(says(all, loadVolts120.toFixed(1))).toBe(true)
      }
    }
    expect(plan.mistakes.length).toBeGreaterThan(0)
    for (const { signs } of plan.mistakes)
      for (const sign of signs) expect(says(all, sign)).toBe(true)
    for (const words of ['bypass, open', 'source disconnect', 'A unit', 'series arrester']) {
      expect(says(all, words)).toBe(true)
    }

    const steps = plan.poles.flatMap(({ sequence }) => sequence.steps)
    expect(steps.length).toBeGreaterThan(40)
    for (const { id, text, hazard, asks } of steps) {
      const parts = [text, hazard ?? '', ...asks.map(({ what }) => what)].map(plain)
      const whole = paper.pages.filter(({ text: one }) =>
        parts.every((part) => plain(one).includes(part)),
      )
      expect({ id, isOnOnePage: whole.length > 0 }).toEqual({ id, isOnOnePage: true })
    }
    const holds = steps.filter(({ isHoldPoint }) => isHoldPoint).length
    expect(all.split(plain('Hold point.')).length - 1).toBe(holds)
    await paper.remove()
  })

  it('leads back to the pole by its code, and is set anew for A4', async () => {
    const job = await draft('Look at the Anvil bank', byHand('inspection', [bank.pole]))
    const page = await openPacket(job)
    await page.getByRole('button', { name: 'A4' }).click()
    const paper = await printed(page)
    expect(paper.size).toContain('(A4)')
    const place = paper.pages.find(({ text }) => plain(text).includes(plain(gridOf(bank.pole))))
    const code = await place?.codeIn({ left: 0.5, top: 0, width: 0.5, height: 0.35 })
    const link = new URL(code ?? 'none:')
    expect(link.origin).toBe(session.url())
    expect(Object.fromEntries(link.searchParams)).toEqual({
      person: 'crew',
      feeder: FEEDER,
      pole: bank.pole,
    })
    await paper.remove()

    await page.getByRole('button', { name: 'Back to the job' }).click()
    await page.getByRole('button', { name: 'Packet to print' }).waitFor()
    expect(await page.getByRole('main', { name: /Packet of the job/ }).count()).toBe(0)
  })

  it('is a step of the browser: going back leads to the job, forward to the packet again', async () => {
    const job = await draft('Look once more', byHand('inspection', [bank.pole]))
    const page = await openPacket(job)
    await page.goBack()
    await page.getByRole('heading', { name: job.title }).waitFor()
    await page.getByRole('button', { name: 'Labels to print' }).click()
    await page.getByRole('main', { name: 'Labels of the job' }).waitFor()
    await page.goBack()
    await page.getByRole('button', { name: 'Labels to print' }).waitFor()
    expect(new URL(page.url()).searchParams.get('view')).toBe(`job~${job.id}`)
    await page.goForward()
    await page.getByRole('main', { name: 'Labels of the job' }).waitFor()
  })
})

describe('a sheet of labels', () => {
  it('printed from a phone has one for each pole, three across, and each code leads to its own', async () => {
    const poles = real.slice(40, 44).map(({ id }) => id)
    const job = await draft('Four poles at the creek', byHand('inspection', poles))
    const { page } = await session.open(
      `&person=crew&feeder=${FEEDER}&view=${encodeURIComponent(`job:${job.id}`)}`,
      { viewport: PHONE },
    )
    page.setDefaultTimeout(WITHIN_MS)
    await page.locator('summary', { hasText: 'Papers, files and link' }).click()
    await page.getByRole('button', { name: 'Labels to print' }).click()
    await page.getByRole('main', { name: 'Labels of the job' }).waitFor()
    const paper = await printed(page)
    expect(paper.pages).toHaveLength(1)
    const [sheet] = paper.pages
    const width = 1 / 3
    const codes = await Promise.all(
      [0, 1, 2].map((column) =>
        sheet?.codeIn({ left: column * width, top: 0, width, height: 0.25 }),
      ),
    )
    const read = codes.map((code) => new URL(code ?? 'none:').searchParams.get('pole'))
    expect(new Set(read).size).toBe(3)
    for (const pole of read) expect(poles).toContain(pole)
    const all = allOf(paper)
    for (const pole of poles) {
      expect(says(all, pole)).toBe(true)
      expect(says(all, gridOf(pole))).toBe(true)
    }
    await paper.remove()
    // Paper is wider than the phone, which must not close what is open.
    await page.getByRole('button', { name: 'Back to the job' }).click()
  })
})
