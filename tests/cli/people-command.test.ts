import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { startServer } from '../../server/main.ts'
import { buildCli, runCli } from './run-cli.ts'

let data = ''
beforeAll(async () => {
  await buildCli()
  data = await mkdtemp(join(tmpdir(), 'crossarm-people-'))
}, 180_000)
afterAll(() => rm(data, { recursive: true, force: true }))

const people = (...args: string[]) => runCli('people', ...args, '--data', data)
const ALEX = ['--name', 'Alex', '--email', 'alex@utility.example', '--role', 'administrator']

describe('the people of a server, from its own command line', () => {
  it('are added with a link, by which the first administrator comes in', async () => {
    const { code, out } = await people('add', ...ALEX, '--role', 'planner')
    expect(code).toBe(0)
    expect(out).toContain('Alex is invited.')
    const link = new URL(out.trimEnd().split('\n').at(-1) ?? '')
    expect(link.href).toMatch(/^http:\/\/127\.0\.0\.1:8080\/invitation#[\w-]{43}$/)
    const server = await startServer({ port: 0, dataFolder: data, isDemo: false })
    const answer = await fetch(server.address + routes.acceptInvitation.path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        token: link.hash.slice(1),
        name: 'Alex',
        password: 'a long enough password',
      }),
    })
    expect(await answer.json()).toMatchObject({ roles: ['administrator', 'planner'] })
    await server.stop()
  })

  it('are listed', async () => {
    const { out } = await people('list')
    expect(out).toMatch(/^name +email +roles +state$/m)
    expect(out).toMatch(/^Alex +alex@utility\.example +administrator, planner +active$/m)
  })

  it('get a new link where they are known already', async () => {
    const { code, out } = await people('add', ...ALEX)
    expect(code).toBe(0)
    expect(out).toContain('was known already')
  })

  it('are closed, but for the last administrator', async () => {
    await people('add', '--name', 'Kim', '--email', 'kim@utility.example', '--role', 'crew')
    expect(await people('close', 'kim@utility.example')).toMatchObject({
      code: 0,
      out: 'Kim is closed.\n',
    })
    const last = await people('close', 'alex@utility.example')
    expect(last).toMatchObject({ code: 1, out: '' })
    expect(last.err).toContain('last active administrator')
    expect((await people('close', 'nobody@utility.example')).err).toContain('Nobody has the email')
  })

  it.each([
    ['an unknown role', ['add', '--name', 'X', '--email', 'x@utility.example', '--role', 'owner']],
    ['no email', ['add', '--name', 'X', '--role', 'crew']],
    ['nothing to do', []],
  ])('are left alone with %s', async (_, args) => {
    expect(await people(...args)).toMatchObject({ code: 2, out: '' })
  })
})
