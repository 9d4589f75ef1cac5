import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { findFreePort } from '../support/free-port.ts'
import {
  type Claims,
  type SignOnProvider,
  startSignOnProvider,
} from '../support/sign-on-provider.ts'
import { cookiesOf, type StaffedServer, startStaffedServer } from './staff.ts'

let provider: SignOnProvider
let server: StaffedServer
beforeAll(async () => {
  provider = await startSignOnProvider()
  const port = await findFreePort()
  server = await startStaffedServer({
    port,
    origin: `http://127.0.0.1:${port}`,
    hasPasskeys: true,
    signOn: provider.settings,
  })
})
afterAll(async () => {
  await server.stop()
  await provider.stop()
})

const OWN = '/api/auth'

/** Goes through the sign-on as a browser would, and gives where it ended and with which cookies. */
async function signOn(as: Claims) {
  provider.expect(as)
  const started = await fetch(`${server.address}${OWN}/sign-in/social`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: server.address },
    body: JSON.stringify({
      provider: 'own-sign-on',
      callbackURL: '/',
      errorCallbackURL: '/?sign-on=refused',
    }),
  })
  const { url } = (await started.json()) as { url: string }
  const consented = await fetch(url, { redirect: 'manual' })
  const back = await fetch(consented.headers.get('location') ?? '', {
    headers: { cookie: cookiesOf(started) },
    redirect: 'manual',
  })
  return { location: back.headers.get('location') ?? '', cookie: cookiesOf(back) }
}

async function invite(email: string): Promise<string> {
  const body = { name: 'Sol', email, roles: ['supervisor' as const] }
  return (await server.call(routes.invitePerson, { body }, server.administrator)).person.id
}

describe('the utility’s own sign-on', () => {
  it('lets in who was invited under the same email, and makes them active', async () => {
    const id = await invite('sol@utility.example')
    const as = { sub: 'sol-1', email: 'sol@utility.example', email_verified: true }
    const { cookie, location } = await signOn(as)
    expect(new URL(location, server.address).pathname).toBe('/')
    const me = await server.call(routes.getMe, {}, { cookie })
    expect(me).toMatchObject({ id, roles: ['supervisor'], email: 'sol@utility.example' })
    const people = await server.call(routes.listPeople, {}, server.administrator)
    expect(people.find((person) => person.id === id)?.state).toBe('active')
    expect((await signOn(as)).cookie).toContain('session_token')
  })

  it('lets in nobody else, and makes nobody', async () => {
    const before = await server.call(routes.listPeople, {}, server.administrator)
    const as = { sub: 'stranger-1', email: 'stranger@elsewhere.example', email_verified: true }
    const { cookie, location } = await signOn(as)
    expect(location).toContain('sign-on=refused')
    expect(cookie).not.toContain('session_token')
    expect(await server.call(routes.listPeople, {}, server.administrator)).toEqual(before)
  })

  it('believes no email that the provider has not checked', async () => {
    await invite('unchecked@utility.example')
    const as = { sub: 'x-1', email: 'unchecked@utility.example', email_verified: false }
    const { cookie, location } = await signOn(as)
    expect(location).toContain('sign-on=refused')
    expect(cookie).not.toContain('session_token')
  })

  it('lets in nobody whose account is closed', async () => {
    const { person } = await server.hire('gone@utility.example', ['crew'])
    const body = { ...person, state: 'closed' as const }
    const input = { params: { personId: person.id }, body }
    await server.call(routes.changePerson, input, server.administrator)
    const as = { sub: 'gone-1', email: 'gone@utility.example', email_verified: true }
    expect((await signOn(as)).cookie).not.toContain('session_token')
  })

  it('leads back only to this server', async () => {
    const started = await fetch(`${server.address}${OWN}/sign-in/social`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin: server.address },
      body: JSON.stringify({ provider: 'own-sign-on', callbackURL: 'https://elsewhere.example/' }),
    })
    expect(started.status).toBe(403)
  })

  it('is told to the page by its name', async () => {
    expect(await server.call(routes.getSettings, {}, 'nobody')).toMatchObject({
      ownSignOn: 'Utility sign-on',
      hasPasskeys: true,
      isDemo: false,
    })
  })
})

describe('the library of sign-in', () => {
  it.each([
    ['POST', '/sign-up/email'],
    ['POST', '/sign-in/email'],
    ['POST', '/change-email'],
    ['POST', '/update-user'],
    ['POST', '/delete-user'],
    ['POST', '/two-factor/disable'],
    ['POST', '/two-factor/verify-totp'],
    ['POST', '/link-social'],
    ['GET', '/get-session'],
    ['GET', '/list-sessions'],
    ['GET', '/ok'],
    ['GET', '/callback/other'],
  ])('cannot be asked for %s %s', async (method, path) => {
    const answer = await fetch(`${server.address}${OWN}${path}`, {
      method,
      headers: { ...server.administrator, 'content-type': 'application/json' },
      ...(method === 'POST' && { body: '{}' }),
    })
    expect(answer.status).toBe(404)
    expect(await answer.json()).toMatchObject({ code: 'not-found' })
  })

  it('offers a passkey for this server to a person who is signed in, and to nobody else', async () => {
    const path = `${server.address}${OWN}/passkey/generate-register-options`
    const offered = await fetch(path, { headers: server.administrator })
    expect(await offered.json()).toMatchObject({ rp: { id: '127.0.0.1', name: 'Crossarm' } })
    expect((await fetch(path)).status).toBe(401)
  })

  it('lets nobody in by a passkey that was never registered', async () => {
    const options = await fetch(`${server.address}${OWN}/passkey/generate-authenticate-options`)
    const answer = await fetch(`${server.address}${OWN}/passkey/verify-authentication`, {
      method: 'POST',
      headers: {
        'content-type': 'application/json',
        origin: server.address,
        cookie: cookiesOf(options),
      },
      body: JSON.stringify({ response: { id: 'unknown', rawId: 'unknown', response: {} } }),
    })
    expect([400, 401]).toContain(answer.status)
    expect(cookiesOf(answer)).not.toContain('session_token')
  })

  it('is not there at all where neither is set up', async () => {
    const plain = await startStaffedServer()
    for (const path of ['/sign-in/social', '/passkey/generate-authenticate-options']) {
      expect((await fetch(`${plain.address}${OWN}${path}`)).status).toBe(404)
    }
    await plain.stop()
  })
})
