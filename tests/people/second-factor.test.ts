import { createHmac } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { cookiesOf, PASSWORD, type StaffedServer, startStaffedServer } from './staff.ts'

/** RFC 6238 on top of RFC 4226, with HMAC-SHA-1 and steps of 30 s. */
function codeAt(key: Buffer, seconds: number, digits: number): string {
  const counter = Buffer.alloc(8)
  counter.writeBigUInt64BE(BigInt(Math.floor(seconds / 30)))
  const hash = createHmac('sha1', key).update(counter).digest()
  const offset = (hash.at(-1) ?? 0) & 0xf
  const number = hash.readUInt32BE(offset) & 0x7fffffff
  return String(number % 10 ** digits).padStart(digits, '0')
}

/** RFC 4648, section 6. */
function fromBase32(text: string): Buffer {
  const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567'
  const bits = [...text].map((letter) => alphabet.indexOf(letter).toString(2).padStart(5, '0'))
  const octets = bits.join('').match(/.{8}/g) ?? []
  return Buffer.from(octets.map((octet) => Number.parseInt(octet, 2)))
}

describe('the codes of this test', () => {
  // RFC 6238, appendix B, the rows of SHA1.
  it.each([
    [59, '94287082'],
    [1_111_111_109, '07081804'],
    [1_111_111_111, '14050471'],
    [1_234_567_890, '89005924'],
    [2_000_000_000, '69279037'],
  ])('are those of RFC 6238 at %i s', (seconds, code) => {
    expect(codeAt(Buffer.from('12345678901234567890'), seconds, 8)).toBe(code)
  })
})

let server: StaffedServer
beforeAll(async () => {
  server = await startStaffedServer()
})
afterAll(() => server.stop())

/** A person who has just confirmed an authenticator. */
async function withSecondFactor(email: string) {
  const { headers, person } = await server.hire(email, ['crew'])
  const started = await server.call(
    routes.startSecondFactor,
    { body: { password: PASSWORD } },
    headers,
  )
  const key = fromBase32(new URL(started.uri).searchParams.get('secret') ?? '')
  const code = (laterS = 0) => codeAt(key, Date.now() / 1000 + laterS, 6)
  const confirmed = await server.send(
    routes.confirmSecondFactor,
    { body: { code: code(-30) } },
    headers,
  )
  expect(await confirmed.json()).toMatchObject({ hasSecondFactor: true })
  return { email, person, started, code, headers: { cookie: cookiesOf(confirmed) } }
}

async function giveCode(email: string, code: string) {
  const first = await server.send(routes.signIn, { body: { email, password: PASSWORD } })
  expect(await first.json()).toEqual({ state: 'second-factor-needed' })
  const challenge = { cookie: cookiesOf(first) }
  expect((await server.send(routes.getMe, {}, challenge)).status).toBe(401)
  return server.send(routes.giveSecondFactor, { body: { code } }, challenge)
}

describe('a second factor', () => {
  it('is asked for after the password, and the code of an authenticator is taken once', async () => {
    const { email, code } = await withSecondFactor('totp@utility.example')
    const now = code()
    const answer = await giveCode(email, now)
    expect(await answer.json()).toMatchObject({ name: 'totp', hasSecondFactor: true })
    const signedIn = { cookie: cookiesOf(answer) }
    expect((await server.send(routes.getMe, {}, signedIn)).status).toBe(200)
    const again = await giveCode(email, now)
    expect(again.status).toBe(401)
    expect((await server.send(routes.getMe, {}, { cookie: cookiesOf(again) })).status).toBe(401)
    expect((await server.send(routes.getMe, {}, signedIn)).status).toBe(200)
  })

  it('may be a code kept for a lost authenticator, each once', async () => {
    const { email, started } = await withSecondFactor('backup@utility.example')
    const [code = ''] = started.backupCodes
    expect((await giveCode(email, code)).status).toBe(200)
    expect((await giveCode(email, code)).status).toBe(401)
  })

  it('is refused with a wrong code, and without a password before it', async () => {
    const { email, code } = await withSecondFactor('wrong@utility.example')
    const wrong = String((Number(code()) + 1) % 1_000_000).padStart(6, '0')
    expect((await giveCode(email, wrong)).status).toBe(401)
    const alone = await server.send(routes.giveSecondFactor, { body: { code: code() } })
    expect(alone.status).toBe(401)
  })

  it('is no longer asked for once it was removed, for which the password is needed', async () => {
    const { email, headers, person } = await withSecondFactor('removed@utility.example')
    const remove = (password: string) =>
      server.send(routes.removeSecondFactor, { body: { password } }, headers)
    expect((await remove('not the password')).status).toBe(401)
    expect(await (await remove(PASSWORD)).json()).toMatchObject({ hasSecondFactor: false })
    const answer = await server.send(routes.signIn, { body: { email, password: PASSWORD } })
    expect(await answer.json()).toMatchObject({ state: 'signed-in' })
    const asked = { params: { subject: 'person' as const, subjectId: person.id } }
    const { entries } = await server.call(routes.getHistory, asked, server.administrator)
    expect(entries.slice(2).map(({ after }) => (after as { step?: string }).step)).toEqual([
      'second-factor-on',
      'second-factor-off',
    ])
  })

  it('is begun only with the password, and not twice', async () => {
    const { headers } = await withSecondFactor('again@utility.example')
    const begin = (password: string) =>
      server.problem(routes.startSecondFactor, { body: { password } }, headers)
    expect((await begin('not the password')).code).toBe('sign-in-refused')
    expect((await begin(PASSWORD)).code).toBe('wrong-state')
  })
})
