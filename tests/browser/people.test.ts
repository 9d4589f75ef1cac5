import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import {
  type DeskPage,
  keepPicture,
  openDesk,
  PHONE,
  seriousFindings,
} from '../support/desk-page.ts'
import { deskSession } from '../support/desk-session.ts'
import { findFreePort } from '../support/free-port.ts'
import { proposalToKeep } from '../support/kept-proposal.ts'
import { launchChromium } from '../support/launch-chromium.ts'
import { oneTimeCode } from '../support/one-time-code.ts'
import { type SignOnProvider, startSignOnProvider } from '../support/sign-on-provider.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { type RunningServer, startServer } from '../support/start-server.ts'

const textOf = async (part: Locator) => (await part.textContent()) ?? ''
const menu = (page: Page) => page.getByRole('button', { name: /^Signed in as/ })

describe('the demo’s door', () => {
  const session = deskSession({}, { isWithoutLand: true })

  it('lets a visitor in as crew, at the crew’s desk, and shows who they are', async () => {
    const { page } = await session.visit('/', { viewport: PHONE })
    const crew = page.getByRole('button', { name: 'Enter as crew' })
    await crew.waitFor()
    expect(await seriousFindings(page)).toEqual([])
    await keepPicture(page, 'entry-demo-phone')
    await crew.press('Enter')
    await page.getByRole('tab', { name: 'Find a pole' }).click()
    await page.getByLabel('Pole number, job or coordinates').waitFor()
    await page.getByRole('button', { name: 'More' }).click()
    expect(await textOf(menu(page))).toMatch(/Signed in as crew/)
  })

  it('keeps the desk that a link names, and leaves out what a reader may not do', async () => {
    const { page } = await session.visit('/?person=coordinator&feeder=thimble')
    await page.getByRole('button', { name: 'Enter as reader' }).click()
    await page.getByText(/not shown to readers: where they are/).waitFor()
    const desk = page.getByRole('combobox', { name: 'Desk' })
    expect(await desk.inputValue()).toBe('coordinator')
    await desk.selectOption('planner')
    await page.getByText(/Suggesting poles is/).waitFor()
    expect(await page.getByRole('button', { name: 'Suggest a pole' }).count()).toBe(0)
    await menu(page).click()
    await page.getByRole('button', { name: /^Leave/ }).click()
    await page.getByRole('button', { name: 'Enter as planner' }).waitFor()
  })
})

const ROBIN = {
  name: 'Robin Hale',
  email: 'robin@utility.example',
  password: 'quiet creek under cottonwoods',
}
const SAM = { name: 'Sam Ortiz', email: 'sam@utility.example', password: 'long span over the pit' }

describe('a server without the demo', () => {
  let server: RunningServer
  let provider: SignOnProvider
  let browser: Browser
  let origin: string
  let robin: DeskPage
  const others: DeskPage[] = []

  beforeAll(async () => {
    const port = await findFreePort()
    // A passkey belongs to a name, so the server is reached by one.
    origin = `http://localhost:${port}`
    provider = await startSignOnProvider()
    const { discovery, client, secret, name } = provider.settings
    const env = {
      CROSSARM_DEMO: 'off',
      CROSSARM_PASSKEYS: 'on',
      CROSSARM_ORIGIN: origin,
      CROSSARM_SIGN_ON_DISCOVERY: discovery,
      CROSSARM_SIGN_ON_CLIENT: client,
      CROSSARM_SIGN_ON_SECRET: secret,
      CROSSARM_SIGN_ON_NAME: name,
    }
    server = await startServer({ port, env })
    browser = await launchChromium()
  })
  afterEach(async () => {
    await Promise.all(others.splice(0).map((desk) => desk.close()))
  })
  afterAll(async () => {
    await robin?.close()
    await browser?.close()
    await server?.stop()
    await provider?.stop()
  })

  const visit = async (address = origin, viewport?: typeof PHONE) => {
    const desk = await openDesk(browser, address, {
      isWithoutLand: true,
      ...(viewport && { viewport }),
    })
    others.push(desk)
    return desk.page
  }
  const openPeople = async (page: Page) => {
    await menu(page).click()
    await page.getByRole('button', { name: 'People and tokens' }).click()
    return page.getByRole('dialog', { name: 'People and tokens' })
  }

  it('lets the first administrator in by the link on the console', async () => {
    const link = /http:\S+\/invitation#\S+/.exec(server.output())?.[0] ?? ''
    const waiting = await visit()
    await waiting.getByText('Nobody can sign in here yet.').waitFor()
    expect(await seriousFindings(waiting)).toEqual([])
    await keepPicture(waiting, 'entry-first-administrator-desktop')

    robin = await openDesk(browser, link, { isWithoutLand: true })
    const { page } = robin
    await page.getByLabel('Your name').fill(ROBIN.name)
    await page.getByLabel('Your email').fill(ROBIN.email)
    await page.getByLabel('New password').fill('too short')
    await page.getByRole('button', { name: 'Set and enter' }).click()
    await page.getByText(/Take at least 12 characters/).waitFor()
    expect(await seriousFindings(page)).toEqual([])
    await page.getByLabel('New password').fill(ROBIN.password)
    await page.getByLabel('The same once more').fill(ROBIN.password)
    await page.getByRole('button', { name: 'Set and enter' }).click()
    await menu(page).waitFor()
    expect(await textOf(menu(page))).toContain(ROBIN.name)
    expect(page.url()).not.toContain('invitation')
  })

  it('says that a password is wrong, and lets in with the right one', async () => {
    const page = await visit(origin, PHONE)
    await page.getByLabel('Email').fill(ROBIN.email)
    await page.getByLabel('Password').fill('not the right password')
    await page.getByRole('button', { name: 'Sign in', exact: true }).click()
    await page.getByRole('alert').getByText('Not signed in').waitFor()
    await keepPicture(page, 'entry-wrong-password-phone')
    expect(await page.getByLabel('Email').inputValue()).toBe(ROBIN.email)
    await page.getByLabel('Password').fill(ROBIN.password)
    await page.getByRole('button', { name: 'Sign in', exact: true }).click()
    await menu(page).waitFor()
  })

  it('invites a person by a link that works once', async () => {
    const sheet = await openPeople(robin.page)
    await sheet.getByRole('button', { name: 'Invite a person…' }).click()
    const form = sheet.getByRole('form', { name: 'Invite a person' })
    await form.getByLabel('Name').fill(SAM.name)
    await form.getByLabel('Email').fill(SAM.email)
    await form.getByRole('button', { name: /^Invite/ }).click()
    await form.getByText('Choose at least one role.').waitFor()
    await form.getByRole('checkbox', { name: 'crew' }).check()
    await form.getByRole('checkbox', { name: 'reader' }).check()
    expect(await seriousFindings(robin.page)).toEqual([])
    await keepPicture(robin.page, 'people-invite-desktop')
    await form.getByRole('button', { name: /^Invite/ }).click()
    const handed = sheet.getByRole('region', { name: `Link for ${SAM.name}` })
    const link = await textOf(handed.getByText(/\/invitation#/))
    await keepPicture(robin.page, 'people-link-desktop')

    const page = await visit(link, PHONE)
    await page.getByText(`For ${SAM.email}, as crew and reader.`).waitFor()
    await page.getByLabel('New password').fill(SAM.password)
    await page.getByLabel('The same once more').fill(SAM.password)
    await keepPicture(page, 'entry-invitation-phone')
    await page.getByRole('button', { name: 'Set and enter' }).click()
    await menu(page).waitFor()
    const again = await visit(link)
    await again.getByText('This invitation cannot be used').waitFor()
    await handed.getByRole('button', { name: 'Done with the link' }).click()
  })

  it('puts two changes of one person side by side, and loses neither', async () => {
    const { page } = robin
    const sheet = page.getByRole('dialog', { name: 'People and tokens' })
    await sheet.getByRole('button', { name: new RegExp(SAM.name) }).click()
    const form = sheet.getByRole('form', { name: 'Name and roles' })
    await form.getByLabel('Name').fill('Sam Ortiz-Bell')
    await page.evaluate(async (email) => {
      const people = (await (await fetch('/api/people')).json()) as { id: string; email: string }[]
      const sam = people.find((person) => person.email === email)
      await fetch(`/api/people/${sam?.id}`, {
        method: 'PUT',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ ...sam, roles: ['crew', 'supervisor'] }),
      })
    }, SAM.email)
    await form.getByRole('button', { name: 'Save name and roles' }).click()
    const both = sheet.getByRole('alert', { name: 'Two versions of this person' })
    await both.getByText('crew and supervisor').waitFor()
    await keepPicture(page, 'people-side-by-side-desktop')
    expect(await seriousFindings(page)).toEqual([])
    await both.getByRole('button', { name: 'Save what is chosen' }).click()
    const row = sheet.getByRole('button', { name: /^Sam Ortiz-Bell/ })
    expect(await textOf(row)).toContain('crew and supervisor')
  })

  it('goes on by itself after a session was lost in the middle of a form', async () => {
    const { page } = robin
    const sheet = page.getByRole('dialog', { name: 'People and tokens' })
    await sheet.getByRole('button', { name: 'Invite a person…' }).click()
    const form = sheet.getByRole('form', { name: 'Invite a person' })
    await form.getByLabel('Name').fill('Kit Moreau')
    await form.getByLabel('Email').fill('kit@utility.example')
    await form.getByRole('checkbox', { name: 'planner' }).check()
    await page.context().clearCookies()
    await form.getByRole('button', { name: /^Invite/ }).click()
    const cover = page.getByRole('dialog', { name: 'Your session has ended' })
    await cover.getByLabel('Password').fill(ROBIN.password)
    expect(await cover.getByLabel('Email').inputValue()).toBe(ROBIN.email)
    expect(await seriousFindings(page)).toEqual([])
    await keepPicture(page, 'entry-session-ended-desktop')
    await cover.getByRole('button', { name: 'Sign in', exact: true }).click()
    await sheet.getByRole('region', { name: 'Link for Kit Moreau' }).waitFor()
    await sheet.getByRole('button', { name: 'Done with the link' }).click()
  })

  it('makes a token whose secret is shown once and opens nothing after it is revoked', async () => {
    const { page } = robin
    const sheet = page.getByRole('dialog', { name: 'People and tokens' })
    await sheet.getByRole('button', { name: 'Tokens of machines' }).click()
    await sheet.getByRole('button', { name: 'Make a token…' }).click()
    await sheet.getByLabel('Name').fill('nightly reading')
    await sheet.getByRole('checkbox', { name: 'see feeders and solve voltages' }).check()
    await keepPicture(page, 'people-token-desktop')
    await sheet.getByRole('button', { name: /^Make it/ }).click()
    const made = sheet.getByRole('region', { name: 'Secret of nightly reading' })
    const secret = await textOf(made.locator('.shown-once'))
    const ask = async () =>
      (await fetch(`${server.url}/api/feeders`, { headers: { authorization: `Bearer ${secret}` } }))
        .status
    expect(await ask()).toBe(200)
    await made.getByRole('button', { name: 'Done with the secret' }).click()
    await sheet.getByRole('button', { name: 'Revoke the token nightly reading' }).click()
    await sheet.getByText(/^Revoked/).waitFor()
    expect(await ask()).toBe(401)
    await sheet.getByRole('button', { name: 'Close' }).click()
  })

  it('computes codes as RFC 6238, appendix B, does', () => {
    // Secret "12345678901234567890" in base32; the two first rows of the table for SHA-1.
    const key = 'GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ'
    expect(oneTimeCode(key, 59_000, 8)).toBe('94287082')
    expect(oneTimeCode(key, 1_111_111_109_000, 8)).toBe('07081804')
  })

  it('asks for the code of an authenticator once it is set up', async () => {
    const page = await visit(origin, PHONE)
    await page.getByLabel('Email').fill(SAM.email)
    await page.getByLabel('Password').fill(SAM.password)
    await page.getByRole('button', { name: 'Sign in', exact: true }).click()
    await menu(page).click()
    await page.getByRole('button', { name: 'Account and sessions' }).click()
    const sheet = page.getByRole('dialog', { name: 'Your account' })
    await sheet.getByText('this session').waitFor()
    expect(await seriousFindings(page)).toEqual([])
    await keepPicture(page, 'account-phone')
    await sheet.getByRole('button', { name: 'Set up an authenticator…' }).click()
    await sheet.getByLabel('Your present password').fill(SAM.password)
    await sheet.getByRole('button', { name: 'Go on' }).click()
    await sheet.getByRole('img', { name: /^QR code/ }).waitFor()
    expect(await seriousFindings(page)).toEqual([])
    await keepPicture(page, 'account-second-factor-phone')
    const key = await textOf(sheet.locator('.account-secret'))
    await sheet.getByLabel(/The code that it shows now/).fill(oneTimeCode(key, Date.now()))
    await sheet.getByRole('button', { name: 'Turn the second factor on' }).click()
    await sheet.getByText(/^On: signing in asks/).waitFor()
    await sheet.getByRole('button', { name: 'Close' }).click()
    await menu(page).click()
    await page.getByRole('button', { name: 'Sign out' }).click()

    await page.getByLabel('Email').fill(SAM.email)
    await page.getByLabel('Password').fill(SAM.password)
    await page.getByRole('button', { name: 'Sign in', exact: true }).click()
    const code = page.getByLabel('Code of your authenticator')
    await code.fill('000000')
    await page.getByRole('button', { name: 'Finish signing in' }).click()
    await page.getByRole('alert').waitFor()
    // Each code is good once (RFC 6238, section 5.2); the next one is accepted already.
    await code.fill(oneTimeCode(key, Date.now() + 30_000))
    await page.getByRole('button', { name: 'Finish signing in' }).click()
    await menu(page).waitFor()
  })

  it('lets in by a passkey of the device', async () => {
    const { page } = robin
    const device = await page.context().newCDPSession(page)
    await device.send('WebAuthn.enable')
    await device.send('WebAuthn.addVirtualAuthenticator', {
      options: {
        protocol: 'ctap2',
        transport: 'internal',
        hasResidentKey: true,
        hasUserVerification: true,
        isUserVerified: true,
      },
    })
    await menu(page).click()
    await page.getByRole('button', { name: 'Account and sessions' }).click()
    const sheet = page.getByRole('dialog', { name: 'Your account' })
    await sheet.getByLabel('Name of the new passkey').fill('desk in the office')
    await sheet.getByRole('button', { name: 'Add a passkey' }).click()
    await sheet.getByRole('button', { name: 'Remove the passkey desk in the office' }).waitFor()
    await keepPicture(page, 'account-passkeys-desktop')
    await sheet.getByRole('button', { name: 'Close' }).click()
    await menu(page).click()
    await page.getByRole('button', { name: 'Sign out' }).click()
    await page.getByRole('button', { name: 'Sign in with a passkey' }).click()
    await menu(page).waitFor()
    expect(await textOf(menu(page))).toContain(ROBIN.name)
  })

  it('signs out everywhere else and changes the password, which the history tells', async () => {
    const other = await visit()
    await other.getByLabel('Email').fill(ROBIN.email)
    await other.getByLabel('Password').fill(ROBIN.password)
    await other.getByRole('button', { name: 'Sign in', exact: true }).click()
    await menu(other).waitFor()
    const { page } = robin
    await menu(page).click()
    await page.getByRole('button', { name: 'Account and sessions' }).click()
    const sheet = page.getByRole('dialog', { name: 'Your account' })
    await sheet.getByRole('button', { name: 'Sign out everywhere but here' }).click()
    await sheet.getByRole('list', { name: 'Your sessions: 1' }).waitFor()
    await other.reload()
    await other.getByLabel('Email').waitFor()

    await sheet.getByRole('button', { name: 'Change the password…' }).click()
    const form = sheet.getByRole('form', { name: 'Change the password' })
    await form.getByLabel('Your present password').fill('not the right password')
    await form.getByLabel('New password').fill('another creek under willows')
    await form.getByLabel('The same once more').fill('another creek under willows')
    await form.getByRole('button', { name: 'Change the password' }).click()
    await form.getByText('The password is not right.').waitFor()
    expect(await seriousFindings(page)).toEqual([])
    await form.getByLabel('Your present password').fill(ROBIN.password)
    await form.getByRole('button', { name: 'Change the password' }).click()
    await sheet.getByText('Changed. Your other sessions were signed out.').waitFor()
    await sheet.getByRole('button', { name: 'Close' }).click()

    const people = await openPeople(page)
    await people.getByRole('button', { name: new RegExp(ROBIN.name) }).click()
    await people.getByRole('button', { name: `History of ${ROBIN.name}` }).click()
    await people.getByText(`Added a passkey of ${ROBIN.name}.`).waitFor()
    await people.getByText(`Signed ${ROBIN.name} out everywhere else.`).waitFor()
    await people.getByText(`Changed the password of ${ROBIN.name}.`).waitFor()
    await people.getByRole('button', { name: 'Close', exact: true }).click()
  })

  it('lets in by the utility’s own sign-on; what a person deletes there is removed for good by the administrator', async () => {
    const feeder = smallFeeder({ id: 'owned', name: 'Owned feeder' })
    provider.expect({ sub: 'kit-1', email: 'kit@utility.example', email_verified: true })
    const page = await visit()
    await page.getByRole('button', { name: 'Sign in with Utility sign-on' }).click()
    await menu(page).waitFor()
    expect(await textOf(menu(page))).toContain('Kit Moreau')
    await page.evaluate(
      async ([layers, proposal]) => {
        const ask = async (path: string, method: string, body?: unknown) => {
          const headers = { 'content-type': 'application/json' }
          const answer = await fetch(path, { method, headers, body: JSON.stringify(body) })
          if (!answer.ok) throw new Error(await answer.text())
          return (await answer.json()) as { id: string }
        }
        await ask('/api/feeders', 'POST', { layers })
        const { id } = await ask('/api/feeders/owned/proposals', 'POST', proposal)
        await ask(`/api/proposals/${id}?version=1`, 'DELETE')
      },
      [layersOfFeeder(feeder), proposalToKeep(feeder, 'Bank by the weir', '')] as const,
    )

    await robin.page.goto(`${origin}/?feeder=owned&person=planner`)
    await robin.page.getByText('What was deleted').click()
    const list = robin.page.getByRole('region', { name: 'Deleted on this feeder' })
    await list.getByRole('button', { name: 'Remove Bank by the weir for good' }).click()
    const form = list.getByRole('form', { name: 'Remove Bank by the weir for good' })
    await form.getByRole('button', { name: 'Remove for good' }).click()
    await form.getByText('Say why, in at least three letters.').waitFor()
    await form.getByLabel('Why it is removed for good').fill('kept on the wrong feeder')
    await keepPicture(robin.page, 'record-purge-desktop')
    expect(await seriousFindings(robin.page)).toEqual([])
    await form.getByRole('button', { name: 'Remove for good' }).click()
    await list.getByText(/^Nothing of Owned feeder is deleted/).waitFor()
  })
})
