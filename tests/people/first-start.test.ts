import { mkdtemp, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { optionsOf, startServer } from '../../server/main.ts'
import { SECRET_FILE, sessionSecret } from '../../server/people/session-secret.ts'
import { startTestServer } from '../http/test-server.ts'
import { enterDemo } from '../support/enter-demo.ts'
import { secretOf } from './staff.ts'

let folder = ''
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'crossarm-first-'))
})
afterEach(() => rm(folder, { recursive: true, force: true }))

describe('the demo', () => {
  it('is entered without a password as any of its people, but as no administrator', async () => {
    const server = await startTestServer()
    const me = await server.call(routes.enterDemo, { body: { role: 'crew' } }, 'nobody')
    expect(me).toMatchObject({ name: 'Demo crew', isDemo: true, roles: ['crew'], email: null })
    const wrong = { body: { role: 'administrator' as 'crew' } }
    const problem = await server.problem(routes.enterDemo, wrong, 'nobody')
    expect(problem.code).toBe('malformed-request')
    await server.stop()
  })

  it('is not entered through a proxy', async () => {
    const server = await startTestServer()
    for (const name of ['x-forwarded-for', 'forwarded', 'via']) {
      const problem = await server.problem(
        routes.enterDemo,
        { body: { role: 'planner' } },
        { [name]: '192.0.2.1' },
      )
      expect(problem.code).toBe('not-found')
    }
    await server.stop()
  })

  it.each([
    [{ host: '0.0.0.0' }],
    [{ host: '::' }],
    [{ host: '192.0.2.1' }],
    [{ origin: 'https://crossarm.example' }],
  ])('is served to this machine alone, not with %o, and says how to go on', async (open) => {
    const start = startServer({ ...open, port: 0, dataFolder: folder })
    await expect(start).rejects.toThrow(/CROSSARM_DEMO=off(.|\n)*crossarm people add/)
  })

  it('lets nobody in once it is turned off, not even who was in', async () => {
    const dataFolder = join(folder, 'data')
    const demo = await startTestServer({ dataFolder })
    const cookie = await enterDemo(demo.address, 'planner')
    const feeders = await demo.call(routes.listFeeders, {}, { cookie })
    await demo.stop()
    const server = await startTestServer({ dataFolder, isDemo: false })
    expect((await server.problem(routes.getMe, {}, { cookie })).code).toBe('sign-in-needed')
    const entering = await server.problem(routes.enterDemo, { body: { role: 'crew' } }, 'nobody')
    expect(entering.code).toBe('not-found')
    expect(feeders).toHaveLength(1)
    await server.stop()
  })
})

describe('a server without the demo', () => {
  it('begins empty, and lets the first administrator in by a link, once', async () => {
    const server = await startTestServer({ isDemo: false })
    const before = await server.call(routes.getSettings, {}, 'nobody')
    expect(before).toMatchObject({ isDemo: false, needsAdministrator: true })
    const token = secretOf(server.firstLink ?? '')
    const words = await server.call(routes.getInvitation, { body: { token } }, 'nobody')
    expect(words).toMatchObject({ email: null, roles: ['administrator'] })
    expect(Date.parse(words.endsAt) - Date.now()).toBeLessThanOrEqual(3_600_000)
    const body = { token, name: 'Alex', password: 'a long enough password' }
    const nameless = await server.problem(routes.acceptInvitation, { body }, 'nobody')
    expect(nameless.faults?.map(({ at }) => at)).toEqual(['body.email'])
    const own = { body: { ...body, email: 'Alex@utility.example' } }
    const me = await server.call(routes.acceptInvitation, own, 'nobody')
    expect(me).toMatchObject({ email: 'alex@utility.example', roles: ['administrator'] })
    expect((await server.problem(routes.acceptInvitation, own, 'nobody')).code).toBe('not-found')
    const after = await server.call(routes.getSettings, {}, 'nobody')
    expect(after.needsAdministrator).toBe(false)
    const signIn = { body: { email: 'alex@utility.example', password: body.password } }
    expect(await server.call(routes.signIn, signIn, 'nobody')).toMatchObject({ state: 'signed-in' })
    await server.stop()
  })

  it('gives a new link at each start until there is an administrator', async () => {
    const dataFolder = join(folder, 'data')
    const first = await startTestServer({ dataFolder, isDemo: false })
    await first.stop()
    const second = await startTestServer({ dataFolder, isDemo: false })
    const read = (link: string | null) =>
      second.call(routes.getInvitation, { body: { token: secretOf(link ?? '') } }, 'nobody')
    await expect(read(first.firstLink)).rejects.toThrow('used or has ended')
    expect(await read(second.firstLink)).toMatchObject({ email: null })
    await second.stop()
  })

  it('sends its cookies by https alone where it is reached so', async () => {
    const origin = 'https://crossarm.example'
    const server = await startTestServer({ isDemo: false, origin })
    const token = secretOf(server.firstLink ?? '')
    expect(server.firstLink).toContain(`${origin}/invitation#`)
    const answer = await fetch(`${server.address}/api/invitation/accept`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin },
      body: JSON.stringify({
        token,
        name: 'Alex',
        email: 'alex@utility.example',
        password: 'a long enough password',
      }),
    })
    const [cookie] = answer.headers.getSetCookie()
    expect(cookie).toMatch(/^__Secure-crossarm\.session_token=.*; Secure/)
    await server.stop()
  })
})

describe('what the environment says of people', () => {
  it('is refused where it makes no sense or is not safe', () => {
    expect(() => optionsOf({ CROSSARM_DEMO: 'no' })).toThrow('CROSSARM_DEMO must be on or off')
    for (const origin of ['crossarm.example', 'http://crossarm.example', 'https://a.example/b']) {
      expect(() => optionsOf({ CROSSARM_ORIGIN: origin })).toThrow('CROSSARM_ORIGIN must be as')
    }
    expect(() => optionsOf({ CROSSARM_PASSKEYS: 'on' })).toThrow('need CROSSARM_ORIGIN')
    const discovery = 'https://sign-on.example/.well-known/openid-configuration'
    expect(() => optionsOf({ CROSSARM_SIGN_ON_DISCOVERY: discovery })).toThrow(
      'CROSSARM_SIGN_ON_CLIENT and CROSSARM_SIGN_ON_SECRET',
    )
  })

  it('turns the demo off, and the sign-on and passkeys on', () => {
    const env = {
      CROSSARM_DEMO: 'off',
      CROSSARM_ORIGIN: 'https://crossarm.example',
      CROSSARM_PASSKEYS: 'on',
      CROSSARM_SIGN_ON_DISCOVERY: 'https://sign-on.example/.well-known/openid-configuration',
      CROSSARM_SIGN_ON_CLIENT: 'crossarm',
      CROSSARM_SIGN_ON_SECRET: 'shared',
      CROSSARM_SIGN_ON_NAME: 'Utility sign-on',
    }
    expect(optionsOf(env)).toMatchObject({
      isDemo: false,
      origin: 'https://crossarm.example',
      hasPasskeys: true,
      signOn: { client: 'crossarm', name: 'Utility sign-on' },
    })
  })
})

describe('the secret of the sessions', () => {
  it('is made once, for the owner’s eyes only, also by two at once', async () => {
    const [first, second] = await Promise.all([
      sessionSecret(folder, undefined),
      sessionSecret(folder, undefined),
    ])
    expect(first).toBe(second)
    expect(await sessionSecret(folder, undefined)).toBe(first)
    expect((await stat(join(folder, SECRET_FILE))).mode & 0o777).toBe(0o600)
  })

  it('is refused where the given one is too short', async () => {
    await expect(sessionSecret(folder, 'short')).rejects.toThrow('at least 32 characters')
  })
})
