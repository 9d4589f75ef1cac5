import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { z } from 'zod'
import { buildCli, PROJECT_FOLDER, published, runCli } from './run-cli.ts'

const PhaseFigures = z.strictObject({ pu: z.number(), angleDeg: z.number(), volts120: z.number() })
const byPhase = <Value extends z.ZodType>(value: Value) =>
  z.partialRecord(z.enum(['A', 'B', 'C']), value)

/** The documented form, to the key. */
const VoltageJson = z.strictObject({
  feeder: z.string(),
  case: z.string(),
  converged: z.literal(true),
  iterations: z.number().int(),
  nodes: z.array(z.strictObject({ id: z.string(), phases: byPhase(PhaseFigures) })),
  regulators: z.array(z.strictObject({ id: z.string(), taps: byPhase(z.number().int()) })),
  bypassed: z.array(z.string()),
  totals: z.strictObject({
    inputKw: z.number(),
    inputKvar: z.number(),
    lossKw: z.number(),
    lossKvar: z.number(),
  }),
})

let scratch = ''
beforeAll(async () => {
  await buildCli()
  scratch = await mkdtemp(join(tmpdir(), 'crossarm-cli-'))
}, 120_000)
afterAll(() => rm(scratch, { recursive: true }))

/** A copy of a published feeder with one of its files changed. */
async function changedCopy(id: string, file: string, change: (text: string) => string) {
  const folder = await mkdtemp(join(scratch, 'feeder-'))
  await cp(join(PROJECT_FOLDER, published(id)), folder, { recursive: true })
  const path = join(folder, file)
  await writeFile(path, change(await readFile(path, 'utf8')))
  return folder
}

const solved = async (...args: string[]) => {
  const { code, out, err } = await runCli('voltage', ...args, '--json')
  expect({ code, err }).toEqual({ code: 0, err: '' })
  return VoltageJson.parse(JSON.parse(out))
}

describe('voltage --json', () => {
  it('gives the documented object for the 34-node feeder, taps as published', async () => {
    const answer = await solved(published('ieee34'))
    expect(answer).toMatchObject({ feeder: 'ieee34', case: 'published', converged: true })
    expect(answer.regulators).toEqual([
      { id: 'RG10', taps: { A: 12, B: 5, C: 5 } },
      { id: 'RG11', taps: { A: 13, B: 11, C: 12 } },
    ])
    expect(Math.abs(answer.totals.lossKw / 273.05 - 1)).toBeLessThan(0.005)
    const far = answer.nodes.find(({ id }) => id === '890')
    expect(far?.phases.A?.pu).toBeCloseTo(0.9167, 3)
    expect(far?.phases.A?.volts120).toBeCloseTo((far?.phases.A?.pu ?? 0) * 120, 9)
  })

  it('names poles and the load sides of regulators, and no other point', async () => {
    const answer = await solved(published('ieee34'))
    const ids = answer.nodes.map(({ id }) => id)
    expect(ids).toHaveLength(34 + 2)
    expect(ids.filter((id) => id.includes(':'))).toEqual(['RG10:out', 'RG11:out'])
  })

  it('gives no key for a phase that a node lacks', async () => {
    const answer = await solved(published('ieee13'))
    const single = answer.nodes.find(({ id }) => id === '652')
    expect(Object.keys(single?.phases ?? {})).toEqual(['A'])
  })

  it('lets the controls set the taps where asked to', async () => {
    const answer = await solved(published('ieee13'), '--taps', 'controlled')
    expect(answer.regulators).toEqual([{ id: 'RG60', taps: { A: 10, B: 8, C: 11 } }])
  })

  it('takes the case that is named', async () => {
    const folder = await changedCopy('bw33', 'feeder.json', (text) => {
      const header = JSON.parse(text)
      header.cases.push({ id: 'light', name: 'Light load', load_factor: 0.25 })
      return JSON.stringify(header)
    })
    expect((await solved(folder)).case).toBe('published')
    const light = await solved(folder, '--case', 'light')
    expect(light.case).toBe('light')
    expect(light.totals.lossKw).toBeLessThan(202.68 / 12)
  })

  it('says that there is no solution, and ends with 1, when the load is too large', async () => {
    const folder = await changedCopy('bw33', 'feeder.json', (text) =>
      text.replace('"load_factor": 1', '"load_factor": 9'),
    )
    const { code, out, err } = await runCli('voltage', folder, '--json')
    expect(code).toBe(1)
    expect(JSON.parse(out)).toMatchObject({
      converged: false,
      reason: 'voltage-collapse',
      nodes: [],
      regulators: [],
      totals: null,
    })
    expect(err.trimEnd().split('\n')).toHaveLength(1)
    expect(err).toContain('case published: error: not converged.')
  })
})

describe('voltage of a feeder with a bank that stands bypassed', () => {
  const withBypassedBank = () =>
    changedCopy('ieee34', 'equipment.geojson', (text) =>
      text.replace('"id":"RG10",', '"id":"RG10","state":"bypassed",'),
    )

  it('lists the bank apart from those that have taps, and no load side of it', async () => {
    const { code, out, err } = await runCli('voltage', await withBypassedBank(), '--json')
    const answer = VoltageJson.parse(JSON.parse(out))
    expect(code).toBe(0)
    expect(answer.regulators.map(({ id }) => id)).toEqual(['RG11'])
    expect(answer.bypassed).toEqual(['RG10'])
    expect(answer.nodes.map(({ id }) => id)).not.toContain('RG10:out')
    expect(err).toContain('[bypassed-off-neutral]')
  })

  it('says so to a person', async () => {
    const { out } = await runCli('voltage', await withBypassedBank())
    expect(out).toContain(
      'Regulator RG10 at pole 814 stands bypassed: the line runs past, no tap acts.',
    )
    expect(out).not.toMatch(/^RG10 +814 +A/m)
    expect(out).toMatch(/^RG11 +852 +A/m)
  })
})

describe('voltage for a person', () => {
  it('shows the profile, the regulators, every node and the totals', async () => {
    const { code, out, err } = await runCli('voltage', published('ieee34'))
    expect({ code, err }).toEqual({ code: 0, err: '' })
    expect(out).toContain('Lowest 110.0 V at 890, A phase; highest 126.0 V at 800')
    expect(out).toMatch(/^ {2}A [▁-█]{60} 110\.0$/m)
    expect(out).toMatch(/^RG10 +814 +A +\+12 +/m)
    expect(out).toMatch(/^890 +34\.75 +110\.0- +110\.8- +110\.1-$/m)
    expect(out).toMatch(/^810 +8\.02 +123\.5$/m)
    expect(out).toContain('Loss 272.77 kW')
  })
})

describe('a feeder with errors', () => {
  it('is refused with 1, and each error stands on a line with file, feature and remedy', async () => {
    const folder = await changedCopy('bw33', 'spans.geojson', (text) =>
      text
        .replace('"to":"18"', '"to":"P18"')
        .replace('"line_type":"branch-1-2"', '"line_type":"x"'),
    )
    const { code, out, err } = await runCli('voltage', folder)
    expect({ code, out }).toEqual({ code: 1, out: '' })
    expect(err.trimEnd().split('\n').toSorted()).toEqual([
      'spans.geojson: 1-2: error: Its property line_type names "x", which is not in line_types of feeder.json. Add "x" to line_types of feeder.json, or correct line_type. [no-such-line-type]',
      'spans.geojson: 17-18: error: Its property to names "P18", which is not in poles.geojson. Add "P18" to poles.geojson, or correct to. [no-such-pole]',
    ])
  })

  it('is listed by check, warnings on the output and errors on the error stream', async () => {
    const folder = await changedCopy('bw33', 'loads.geojson', (text) =>
      text.replace('"kw_a"', '"kwA"').replace('"pole":"33"', '"pole":"34"'),
    )
    const { code, out, err } = await runCli('check', folder)
    expect(code).toBe(1)
    expect(out.split('\n')[0]).toMatch(/^loads\.geojson: load-2: warning: .*Write it as kw_a\./)
    expect(err).toMatch(/^loads\.geojson: load-33: error: .*"34".*\[no-such-pole\]\n$/)
    expect(out).toContain('1 error, 1 warning, 0 notices.')
  })

  it('ends check with 2 where a file cannot be read', async () => {
    const folder = await changedCopy('bw33', 'poles.geojson', (text) => text.slice(0, 100))
    const { code, err } = await runCli('check', folder)
    expect(code).toBe(2)
    expect(err).toMatch(/^poles\.geojson: error: .* at line \d+, column \d+\. .*\[bad-json\]\n$/)
  })

  it('is the exception: every published feeder passes check', async () => {
    for (const id of ['ieee13', 'ieee34', 'ieee4-dy-unbalanced', 'bw33', 'bw69']) {
      const { code, out, err } = await runCli('check', published(id))
      expect({ id, code, out, err }).toEqual({
        id,
        code: 0,
        out: '0 errors, 0 warnings, 0 notices.\n',
        err: '',
      })
    }
  })
})
