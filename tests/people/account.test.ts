import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import {
  cookiesOf,
  type Headers,
  PASSWORD,
  type StaffedServer,
  secretOf,
  startStaffedServer,
} from './staff.ts'

let server: StaffedServer
beforeAll(async () => {
  server = await startStaffedServer()
})
afterAll(() => server.stop())

function signIn(email: string, password = PASSWORD, headers: Headers = {}) {
  return server.send(routes.signIn, { body: { email, password } }, headers)
}

const isSignedIn = async (headers: Headers) => (await server.send(routes.getMe, {}, headers)).ok

describe('an invitation', () => {
  const invite = (email: string) =>
    server.call(
      routes.invitePerson,
      { body: { name: 'Kim', email, roles: ['crew'] } },
      server.administrator,
    )

  it('tells whom it is for, and lets in once under the name that was typed', async () => {
    const { link, person, endsAt } = await invite('kim@utility.example')
    expect(person.state).toBe('invited')
    const token = secretOf(link)
    expect(new URL(link).pathname).toBe('/invitation')
    expect(await server.call(routes.getInvitation, { body: { token } }, 'nobody')).toEqual({
      email: 'kim@utility.example',
      name: 'Kim',
      roles: ['crew'],
      endsAt,
    })
    const body = { token, name: 'Kim of the crew', password: PASSWORD }
    const me = await server.call(routes.acceptInvitation, { body }, 'nobody')
    expect(me).toMatchObject({ id: person.id, name: 'Kim of the crew', actingRole: 'crew' })
    const again = await server.problem(routes.acceptInvitation, { body }, 'nobody')
    expect(again.code).toBe('not-found')
  })

  it('ends a week after it was made', async () => {
    const { endsAt } = await invite('week@utility.example')
    const days = (Date.parse(endsAt) - Date.now()) / 86_400_000
    expect(days).toBeGreaterThan(6.99)
    expect(days).toBeLessThanOrEqual(7)
  })

  it('no longer works once a newer one was made', async () => {
    const { link, person } = await invite('newer@utility.example')
    const params = { personId: person.id }
    const newer = await server.call(routes.renewInvitation, { params }, server.administrator)
    const read = (text: string) =>
      server.send(routes.getInvitation, { body: { token: secretOf(text) } })
    expect([(await read(link)).status, (await read(newer.link)).status]).toEqual([404, 200])
  })

  it('wants a long password, and not a second person with the same email', async () => {
    const { link } = await invite('short@utility.example')
    const body = { token: secretOf(link), name: 'Short', password: 'too short' }
    const problem = await server.problem(routes.acceptInvitation, { body }, 'nobody')
    expect(problem.faults?.map(({ at }) => at)).toEqual(['body.password'])
    const twice = await server.problem(
      routes.invitePerson,
      { body: { name: 'Other', email: 'SHORT@utility.example', roles: ['crew'] } },
      server.administrator,
    )
    expect(twice.code).toBe('wrong-state')
  })

  it('as a link for a lost password ends what was signed in, and the old password', async () => {
    const { person, headers } = await server.hire('lost@utility.example', ['crew'])
    const params = { personId: person.id }
    const { link } = await server.call(routes.renewInvitation, { params }, server.administrator)
    expect(await isSignedIn(headers)).toBe(true)
    const body = { token: secretOf(link), name: 'Lost', password: 'another long password' }
    await server.call(routes.acceptInvitation, { body }, 'nobody')
    expect(await isSignedIn(headers)).toBe(false)
    expect((await signIn('lost@utility.example')).status).toBe(401)
    expect((await signIn('lost@utility.example', 'another long password')).status).toBe(200)
  })
})

describe('signing in', () => {
  it('says the same of a wrong password, an unknown email and a closed account', async () => {
    const { person } = await server.hire('closed@utility.example', ['reader'])
    await server.hire('known@utility.example', ['reader'])
    const closing = { ...person, state: 'closed' as const }
    const params = { personId: person.id }
    await server.call(routes.changePerson, { params, body: closing }, server.administrator)
    const answers = await Promise.all([
      signIn('known@utility.example', 'not the password'),
      signIn('nobody@utility.example'),
      signIn('closed@utility.example'),
    ])
    const told = await Promise.all(
      answers.map(async (answer) => {
        const { requestId: _id, ...problem } = (await answer.json()) as Record<string, unknown>
        return { ...problem, cookies: answer.headers.getSetCookie() }
      }),
    )
    expect(told[0]).toMatchObject({ status: 401, code: 'sign-in-refused', cookies: [] })
    expect(told[1]).toEqual(told[0])
    expect(told[2]).toEqual(told[0])
  })

  it('keeps the session in a cookie that no script reads and no other site sends', async () => {
    const answer = await signIn('alex@utility.example')
    const [cookie = ''] = answer.headers.getSetCookie()
    expect(cookie).toMatch(/^crossarm\.session_token=/)
    expect(cookie).toMatch(/; HttpOnly/)
    expect(cookie).toMatch(/; SameSite=Lax/)
    expect(cookie).toMatch(/; Path=\//)
    expect(cookie).not.toMatch(/Domain=/)
    expect(answer.headers.get('cache-control')).toBe('no-store')
    expect(JSON.stringify(await answer.json())).not.toContain(cookie.slice(24, 40))
  })

  it('gives a new session and ends the one that the browser had', async () => {
    const before = { cookie: cookiesOf(await signIn('alex@utility.example')) }
    const after = { cookie: cookiesOf(await signIn('alex@utility.example', PASSWORD, before)) }
    expect(after.cookie).not.toBe(before.cookie)
    expect([await isSignedIn(before), await isSignedIn(after)]).toEqual([false, true])
  })

  it('takes no session that was not signed here', async () => {
    const { cookie } = { cookie: cookiesOf(await signIn('alex@utility.example')) }
    const [name = '', value = ''] = cookie.split('=')
    const [token] = decodeURIComponent(value).split('.')
    expect(await isSignedIn({ cookie: `${name}=${token}` })).toBe(false)
    expect(await isSignedIn({ cookie: `${name}=${token}.${'A'.repeat(43)}=` })).toBe(false)
  })

  it('keeps neither email nor password in the history', async () => {
    const file = await server.send(
      routes.takeOutHistory,
      { query: { as: 'json-lines' } },
      server.administrator,
    )
    const text = await file.text()
    expect(text).toContain('"subject":"person"')
    expect(text).not.toContain('@utility.example')
    expect(text).not.toMatch(/password|secret/i)
  })
})

describe('one’s sessions', () => {
  it('are listed and ended one by one or all at once but this one', async () => {
    const { headers: first } = await server.hire('many@utility.example', ['crew'])
    const other = async (device: string) => ({
      cookie: cookiesOf(await signIn('many@utility.example', PASSWORD, { 'user-agent': device })),
    })
    const [phone, tablet] = [await other('Phone'), await other('Tablet')]
    const listed = await server.call(routes.listSessions, {}, first)
    expect(listed.map(({ device, isThisOne }) => [device, isThisOne])).toEqual(
      expect.arrayContaining([
        ['Phone', false],
        ['Tablet', false],
      ]),
    )
    expect(listed.filter(({ isThisOne }) => isThisOne)).toHaveLength(1)
    const sessionId = listed.find(({ device }) => device === 'Phone')?.id ?? ''
    await server.call(routes.endSession, { params: { sessionId } }, first)
    expect([await isSignedIn(phone), await isSignedIn(tablet)]).toEqual([false, true])
    await server.call(routes.endOtherSessions, {}, first)
    expect([await isSignedIn(tablet), await isSignedIn(first)]).toEqual([false, true])
  })

  it('are nobody else’s to end', async () => {
    const { headers } = await server.hire('victim@utility.example', ['crew'])
    const [session] = await server.call(routes.listSessions, {}, headers)
    const params = { sessionId: session?.id ?? '' }
    const problem = await server.problem(routes.endSession, { params }, server.administrator)
    expect(problem.code).toBe('not-found')
    expect(await isSignedIn(headers)).toBe(true)
  })

  it('end when the password is changed, but for this one', async () => {
    const { headers } = await server.hire('change@utility.example', ['crew'])
    const other = { cookie: cookiesOf(await signIn('change@utility.example')) }
    const body = { current: PASSWORD, next: 'a newer long password' }
    const wrong = { body: { ...body, current: 'not the password' } }
    expect((await server.problem(routes.changePassword, wrong, headers)).code).toBe(
      'sign-in-refused',
    )
    const answer = await server.send(routes.changePassword, { body }, headers)
    expect(answer.status).toBe(200)
    expect(await isSignedIn({ cookie: cookiesOf(answer) })).toBe(true)
    expect([await isSignedIn(headers), await isSignedIn(other)]).toEqual([false, false])
    expect((await signIn('change@utility.example', body.next)).status).toBe(200)
  })

  it('end with signing out', async () => {
    const headers = { cookie: cookiesOf(await signIn('alex@utility.example')) }
    const answer = await server.send(routes.signOut, {}, headers)
    expect(answer.headers.getSetCookie().join()).toMatch(/session_token=; Max-Age=0/)
    expect(await isSignedIn(headers)).toBe(false)
  })
})

describe('the administrators', () => {
  it('cannot close the last of them or take the role away', async () => {
    const people = await server.call(routes.listPeople, {}, server.administrator)
    const alex = people.find(({ email }) => email === 'alex@utility.example')
    if (!alex) throw new Error('Expected Alex among the people.')
    const params = { personId: alex.id }
    for (const change of [{ state: 'closed' as const }, { roles: ['reader' as const] }]) {
      const input = { params, body: { ...alex, ...change } }
      const problem = await server.problem(routes.changePerson, input, server.administrator)
      expect(problem).toMatchObject({ status: 409, code: 'wrong-state' })
    }
  })

  it('are told of a change that somebody made before', async () => {
    const { person } = await server.hire('twice@utility.example', ['crew'])
    const change = (name: string) => ({
      params: { personId: person.id },
      body: { ...person, name },
    })
    const first = await server.call(routes.changePerson, change('First'), server.administrator)
    const late = await server.problem(routes.changePerson, change('Late'), server.administrator)
    expect(late).toMatchObject({ status: 409, code: 'stale-version', current: first })
  })

  it('make nobody active who has not come in', async () => {
    const body = { name: 'Pending', email: 'pending@utility.example', roles: ['crew' as const] }
    const { person } = await server.call(routes.invitePerson, { body }, server.administrator)
    const input = { params: { personId: person.id }, body: { ...person, state: 'active' as const } }
    const problem = await server.problem(routes.changePerson, input, server.administrator)
    expect(problem.code).toBe('wrong-state')
  })

  it('see in the history what was done with an account, and no secret of it', async () => {
    const { person, headers } = await server.hire('steps@utility.example', ['crew'])
    const next = 'a newer long password'
    const other = await signIn('steps@utility.example')
    expect(other.ok).toBe(true)
    await server.call(routes.endOtherSessions, {}, headers)
    const body = { current: PASSWORD, next }
    expect((await server.send(routes.changePassword, { body }, headers)).ok).toBe(true)
    const params = { personId: person.id }
    const { link } = await server.call(routes.renewInvitation, { params }, server.administrator)
    const anew = { token: secretOf(link), name: 'steps', password: 'the third long password' }
    await server.call(routes.acceptInvitation, { body: anew }, 'nobody')
    const asked = { params: { subject: 'person' as const, subjectId: person.id } }
    const { entries } = await server.call(routes.getHistory, asked, server.administrator)
    const administrator = await server.call(routes.getMe, {}, server.administrator)
    const steps = entries.map(({ actorId, what, after }) => [
      actorId,
      what,
      (after as { step?: string }).step,
    ])
    expect(steps.slice(2)).toEqual([
      [person.id, 'changed', 'other-sessions-ended'],
      [person.id, 'changed', 'password-changed'],
      [administrator.id, 'changed', 'link-made'],
      [person.id, 'changed', 'password-set-anew'],
    ])
    const told = JSON.stringify(entries)
    for (const secret of [PASSWORD, next, anew.password, anew.token, 'steps@']) {
      expect(told).not.toContain(secret)
    }
  })

  it('are told nothing of a change of password that was refused', async () => {
    const { person, headers } = await server.hire('refused@utility.example', ['crew'])
    const body = { current: 'not the password', next: 'a newer long password' }
    await server.problem(routes.changePassword, { body }, headers)
    const asked = { params: { subject: 'person' as const, subjectId: person.id } }
    const { entries } = await server.call(routes.getHistory, asked, server.administrator)
    expect(entries.map(({ version }) => version)).toEqual([1, 2])
  })

  it('find every change of a person in the history', async () => {
    const { person } = await server.hire('history@utility.example', ['crew'])
    const body = { ...person, roles: ['crew' as const, 'planner' as const] }
    const params = { personId: person.id }
    await server.call(routes.changePerson, { params, body }, server.administrator)
    const asked = { params: { subject: 'person' as const, subjectId: person.id } }
    const { entries } = await server.call(routes.getHistory, asked, server.administrator)
    expect(entries.map(({ version, after }) => [version, after])).toEqual([
      [1, { name: 'history', roles: ['crew'], state: 'invited' }],
      [2, { name: 'history', roles: ['crew'], state: 'active' }],
      [3, { name: 'history', roles: ['crew', 'planner'], state: 'active' }],
    ])
    const { names } = await server.call(routes.listNames, {}, server.administrator)
    expect(names[person.id]).toBe('history')
    expect(names['came-with-the-feeder']).toBe('Came with the feeder')
  })
})
