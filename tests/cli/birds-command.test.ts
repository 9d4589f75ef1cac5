import { beforeAll, describe, expect, it } from 'vitest'
import { z } from 'zod'
import { POLE_STATES } from '#domain/avian/assessment/pole-assessment.ts'
import { MEASURE_KINDS } from '#domain/feeder/measure-kinds.ts'
import { buildCli, runCli } from './run-cli.ts'

const DEMO = 'geodata/demo/thimble'
const Measure = z.strictObject({
  kind: z.enum(MEASURE_KINDS),
  partIds: z.array(z.string()),
  dimensionM: z.number().optional(),
})

/** The documented form, and nothing beyond it. */
const BirdsJson = z.strictObject({
  feeder: z.string(),
  species: z.string(),
  poles: z.array(
    z.strictObject({
      id: z.string(),
      state: z.enum(POLE_STATES),
      pairs: z.array(
        z.strictObject({
          partA: z.string(),
          partB: z.string(),
          horizontalM: z.number().min(0),
          verticalM: z.number().min(0),
        }),
      ),
      measures: z.array(Measure),
      cost: z.number().min(0).nullable(),
    }),
  ),
})

const ProgrammeJson = z.strictObject({
  feeder: z.string(),
  species: z.string(),
  request: z.looseObject({ budgetUsd: z.number(), from: z.string(), to: z.string() }),
  costUsd: z.number(),
  reduction: z.number(),
  reductionPossible: z.number(),
  gap: z.number().min(0),
  poles: z.array(
    z.strictObject({
      pole: z.string(),
      measures: z.array(Measure),
      costUsd: z.number(),
      reduction: z.number(),
      round: z.number().int(),
      notes: z.array(z.string()),
    }),
  ),
  rounds: z.array(
    z.strictObject({
      poles: z.array(z.string()),
      driveM: z.number(),
      crewDays: z.number(),
      earliest: z.string(),
      latest: z.string(),
    }),
  ),
  leftOut: z.array(z.strictObject({ pole: z.string(), why: z.string() })),
  curve: z.array(
    z.strictObject({ budgetUsd: z.number(), reduction: z.number(), poles: z.number() }),
  ),
})

async function birds(...args: string[]) {
  const { code, out, err } = await runCli('birds', DEMO, '--json', ...args)
  expect({ code, err }).toEqual({ code: 0, err: '' })
  return BirdsJson.parse(JSON.parse(out))
}

const pairCount = ({ poles }: z.infer<typeof BirdsJson>) =>
  poles.reduce((sum, { pairs }) => sum + pairs.length, 0)

const YEAR = ['--from', '2027-01-01', '--to', '2027-12-31']

async function programme(...args: string[]) {
  const { code, out, err } = await runCli('programme', DEMO, '--json', ...YEAR, ...args)
  expect({ code, err }).toEqual({ code: 0, err: '' })
  return ProgrammeJson.parse(JSON.parse(out))
}

/** Two runs over a whole feeder, on a busy machine. */
const TWO_RUNS_MS = 180_000

beforeAll(buildCli, 120_000)

describe('birds', () => {
  it(
    'gives every pole with state, open pairs, measures and cost in the documented form, fewer for a small bird',
    async () => {
      const answer = await birds()
      expect(answer).toMatchObject({ feeder: 'thimble', species: 'eagle' })
      expect(new Set(answer.poles.map(({ id }) => id)).size).toBe(answer.poles.length)
      for (const { state, pairs, cost, measures } of answer.poles) {
        if (state === 'separated' || state === 'covered') {
          expect({ pairs, measures, cost }).toEqual({ pairs: [], measures: [], cost: 0 })
        }
        if (state === 'open') expect(pairs.length).toBeGreaterThan(0)
      }
      expect(answer.poles.some(({ cost }) => cost !== null && cost > 0)).toBe(true)
      const kestrel = await birds('--species', 'American Kestrel')
      expect(kestrel.species).toBe('american-kestrel')
      expect(pairCount(kestrel)).toBeLessThan(pairCount(answer))
    },
    TWO_RUNS_MS,
  )

  it('shows a person the states and the poles to do first', async () => {
    const { code, out } = await runCli('birds', DEMO, '--land', 'geodata/demo/land')
    expect(code).toBe(0)
    expect(out).toMatch(/^ +\d+ {2}open$/m)
    expect(out).toMatch(/^ +1 {2}\S+ +(open|failed|partly done) +\d+ +\d+ {2}\S.* to /m)
    expect(out).toContain('they do not insulate people')
  })

  it('names the species there are when asked for another, and a land that is not there', async () => {
    const dodo = await runCli('birds', DEMO, '--species', 'dodo')
    expect(dodo.code).toBe(2)
    expect(dodo.err).toMatch(/--species takes eagle, .*red-tailed-hawk.*, not "dodo"/)
    const land = await runCli('birds', DEMO, '--land', 'geodata/nowhere')
    expect(land.code).toBe(2)
    expect(land.err).toContain('--land geodata/nowhere cannot be read')
  })
})

describe('programme', () => {
  it(
    'spends no more than the budget, proves its choice, parts it into rounds, and leaves out poles that wait for a job',
    async () => {
      const answer = await programme('--budget', '20000')
      expect(answer.costUsd).toBeLessThanOrEqual(20_000)
      expect(answer.gap).toBe(0)
      const ids = answer.poles.map(({ pole }) => pole).toSorted()
      expect(answer.rounds.flatMap(({ poles }) => poles).toSorted()).toEqual(ids)
      const point = answer.curve.find(({ budgetUsd }) => budgetUsd === 20_000)
      expect(point).toEqual({ budgetUsd: 20_000, reduction: answer.reduction, poles: ids.length })
      const [first = ''] = ids
      const waiting = await programme('--budget', '20000', '--waiting', first)
      expect(waiting.poles.map(({ pole }) => pole)).not.toContain(first)
      expect(waiting.leftOut.find(({ pole }) => pole === first)?.why).toContain('regulator job')
    },
    TWO_RUNS_MS,
  )

  it('shows a person rounds, poles, what was left out and the curve', async () => {
    const { code, out } = await runCli('programme', DEMO, '--budget', '20000', ...YEAR)
    expect(code).toBe(0)
    expect(out).toMatch(/^\d+ poles for \$\d+ of \$20000, 2027-01-01 to 2027-12-31/m)
    expect(out).toMatch(/^Left out: \d+ poles/m)
    expect(out).toMatch(/^ +20000 +\d+ +\d+\.\d\d$/m)
    expect(out).toContain('the agency decides')
  })

  it.each([
    [[], 'Say --budget'],
    [['--budget', 'much'], '--budget takes a number, not "much"'],
    [['--budget=-5'], '--budget:'],
    [['--budget', '5', '--from', 'spring'], '--from:'],
    [['--budget', '5', '--from', '2027-05-01', '--to', '2027-04-01'], 'comes before'],
    [['--budget', '5', '--waiting', 'NOBODY'], 'not in the feeder: NOBODY'],
    [['--budget', '5', '--buffers', 'mars'], '--buffers takes colorado, '],
  ])('refuses %j and says what to write', async (args, words) => {
    const { code, err } = await runCli('programme', DEMO, ...args)
    expect(code).toBe(2)
    expect(err).toContain(words)
  })
})
