import { beforeAll, describe, expect, it } from 'vitest'
import { buildCli, published, runCli } from './run-cli.ts'

beforeAll(buildCli, 120_000)

describe('help', () => {
  it('lists the commands', async () => {
    const { code, out, err } = await runCli('--help')
    expect({ code, err }).toEqual({ code: 0, err: '' })
    for (const command of ['voltage', 'site', 'check', 'serve', 'people', 'verify']) {
      expect(out).toMatch(new RegExp(`^ {2}${command} +\\S`, 'm'))
    }
  })

  it.each([
    ['voltage', ['--case', '--taps', '--json']],
    ['site', ['--banks', '--goal', '--taps', '--low', '--high', '--json']],
    ['check', ['<feeder folder>']],
    ['serve', ['--host', '--port', '--data']],
    ['people', ['--name', '--email', '--role', '--data']],
    ['verify', ['--head', '--data']],
  ])('of %s names its options and what its exit code means', async (command, options) => {
    const { code, out } = await runCli(command, '--help')
    expect(code).toBe(0)
    expect(out).toContain(`Usage: crossarm ${command}`)
    for (const option of options) expect(out).toContain(option)
    expect(out).toMatch(/^Exit code: 0 /m)
  })
})

describe('bad usage', () => {
  it.each([
    ['no command', []],
    ['a command that there is not', ['fly']],
    ['no folder', ['voltage']],
    ['two folders', ['check', published('bw33'), published('bw69')]],
    ['an option that there is not', ['voltage', published('bw33'), '--fast']],
    ['taps of another kind', ['voltage', published('bw33'), '--taps', 'up']],
    ['a case that the feeder lacks', ['voltage', published('bw33'), '--case', 'noon']],
    ['a head that is none', ['verify', '--head', 'abc']],
    ['no database to verify', ['verify', '--data', 'geodata/nowhere']],
    ['three banks', ['site', published('bw33'), '--banks', '3']],
    ['volts that are none', ['site', published('bw33'), '--low', 'abc']],
    ['limits the wrong way around', ['site', published('bw33'), '--low', '127']],
    ['a folder that is not there', ['voltage', 'geodata/published/bw34']],
  ])('(%s) ends with 2, and one line on the error stream says why', async (_what, args) => {
    const { code, out, err } = await runCli(...args)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err.trimEnd().split('\n')).toHaveLength(1)
    expect(err).toContain('error: ')
  })

  it('names the cases that there are', async () => {
    const { err } = await runCli('voltage', published('bw33'), '--case', 'noon')
    expect(err).toContain('bw33 has published.')
  })
})
