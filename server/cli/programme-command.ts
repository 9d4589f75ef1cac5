import { KeepProgrammeBody } from '#contract/programmes.ts'
import type { ProgrammeRequest } from '#domain/avian/programme/programme.ts'
import type { BirdChoices } from './bird-tools.ts'
import { namedOf, speciesOf } from './birds-command.ts'
import { type Command, UsageError } from './command.ts'
import type { FeederTools } from './feeder-tools.ts'
import { refusalCode, reportReading } from './finding-line.ts'
import { programmeText } from './programme-text.ts'
import { ProgressLine } from './progress-line.ts'
import { readArguments } from './read-arguments.ts'

const HELP = `Usage: crossarm programme <feeder folder> --budget <USD> [--from <date>] [--to <date>]
                          [--crews <n>] [--poles-a-day <n>] [--visit <USD>] [--shared <metres>]
                          [--waiting <pole,pole,…>] [--buffers <id>] [--species <id>]
                          [--land <folder>] [--json]

Chooses the poles and measures that take away most for the money, in rounds that nests leave free.

  <feeder folder>    a feeder folder, or one zip of it
  --budget <USD>     what may be spent, with the ways there
  --from, --to       first and last day of work, as 2027-03-01; a year from today without them
  --crews <n>        crews that work at the same time (1 without the option)
  --poles-a-day <n>  poles that a crew does in a day (4)
  --visit <USD>      one way to one place (350, an assumption)
  --shared <metres>  poles so near each other are one visit (800)
  --waiting <ids>    poles that wait for a regulator job, which carries their measures
  --buffers <id>     a set of nest buffers instead of what is recorded with each nest
  --species <id>     the bird that decides, as red-tailed-hawk; eagle without the option
  --land <folder>    land around the poles: ground.geojson and contours.geojson
  --json             one JSON object instead of tables:
                     {feeder, species, request, costUsd, reduction, reductionPossible, gap,
                      poles: [{pole, measures: [{kind, partIds, dimensionM?}], costUsd, reduction,
                               round, notes: […]}],
                      rounds: [{poles: […], driveM, crewDays, earliest, latest}],
                      leftOut: [{pole, why}], curve: [{budgetUsd, reduction, poles}]}
                     round counts from 0; poles of a round in the order of driving; gap is the share
                     of the best that the choice may lack, 0 where it is proven best.

Progress is shown where the error stream is a terminal; an interrupt stops it.

Exit code: 0 done; 1 the feeder was refused; 2 bad usage or unreadable input.

Nest buffers are advisory: the agency decides. The utility's own safety rules and qualified people
govern every visit.`

const DAYS_OF_YEAR = 365
const MS_PER_DAY = 86_400_000

export const programmeCommand: Command = {
  name: 'programme',
  summary: 'choose the poles to make safe for birds with a budget',
  help: HELP,
  async run(args, streams, tools) {
    const { values, folder } = readArguments(args, {
      budget: { type: 'string' },
      from: { type: 'string' },
      to: { type: 'string' },
      crews: { type: 'string' },
      'poles-a-day': { type: 'string' },
      visit: { type: 'string' },
      shared: { type: 'string' },
      waiting: { type: 'string' },
      buffers: { type: 'string' },
      species: { type: 'string' },
      land: { type: 'string' },
      json: { type: 'boolean' },
    })
    const request = requestOf(values)
    const choices = await choicesOf(values, tools)
    const reading = await tools.readFolder(folder)
    reportReading(reading, streams, tools)
    const { feeder } = reading
    if (!feeder) return refusalCode(reading.findings, tools)
    refuseUnknownPoles(request.waitingForJob, feeder.poles)
    const progress = new ProgressLine(streams)
    const show = (done: number, total: number, phase: string) => progress.show(done, total, phase)
    const answer = await tools.birds(feeder, choices, show)
    const programme = await tools.programme(feeder, answer, choices, request, show)
    progress.clear()
    streams.out(
      values.json
        ? JSON.stringify(
            { feeder: feeder.header.id, species: answer.species.id, ...programme },
            null,
            2,
          )
        : programmeText(feeder, programme),
    )
    return 0
  },
}

type Values = Partial<
  Record<
    | 'budget'
    | 'from'
    | 'to'
    | 'crews'
    | 'poles-a-day'
    | 'visit'
    | 'shared'
    | 'waiting'
    | 'buffers'
    | 'species'
    | 'land',
    string
  >
>

/** Where a field of the request comes from, for a message that names the option. */
const OPTION_OF: Readonly<Record<string, string>> = {
  budgetUsd: '--budget',
  from: '--from',
  to: '--to',
  crews: '--crews',
  polesPerCrewDay: '--poles-a-day',
  visitCostUsd: '--visit',
  sharedVisitM: '--shared',
  waitingForJob: '--waiting',
}

function requestOf(values: Values): ProgrammeRequest {
  if (values.budget === undefined) throw new UsageError('Say --budget and an amount in USD.')
  const from = values.from ?? new Date().toISOString().slice(0, 10)
  const parsed = KeepProgrammeBody.shape.programme.shape.request.safeParse({
    budgetUsd: numberOf('budget', values.budget),
    from,
    to: values.to ?? yearAfter(from),
    crews: numberOf('crews', values.crews),
    polesPerCrewDay: numberOf('poles-a-day', values['poles-a-day']),
    visitCostUsd: numberOf('visit', values.visit),
    sharedVisitM: numberOf('shared', values.shared),
    waitingForJob: values.waiting?.split(',').map((id) => id.trim()),
  })
  if (!parsed.success) {
    const [issue] = parsed.error.issues
    const option = OPTION_OF[String(issue?.path[0])] ?? ''
    throw new UsageError(`${option}: ${issue?.message ?? 'not usable'}.`)
  }
  if (parsed.data.to < parsed.data.from) {
    throw new UsageError(`--to ${parsed.data.to} comes before --from ${parsed.data.from}.`)
  }
  return parsed.data
}

function numberOf(option: string, value: string | undefined): number | undefined {
  if (value === undefined) return undefined
  const number = value.trim() === '' ? Number.NaN : Number(value)
  if (Number.isNaN(number)) throw new UsageError(`--${option} takes a number, not "${value}".`)
  return number
}

/** The last day of a year that begins with a day; the day itself where it is no date. */
function yearAfter(from: string): string {
  const ms = Date.parse(`${from}T00:00:00Z`)
  if (Number.isNaN(ms)) return from
  return new Date(ms + (DAYS_OF_YEAR - 1) * MS_PER_DAY).toISOString().slice(0, 10)
}

async function choicesOf(values: Values, tools: FeederTools): Promise<BirdChoices> {
  return {
    speciesId: await speciesOf(values.species, tools),
    bufferSetId:
      values.buffers === undefined
        ? undefined
        : namedOf('buffers', values.buffers, await tools.bufferSets()),
    landFolder: values.land,
  }
}

function refuseUnknownPoles(
  waiting: readonly string[],
  poles: readonly { readonly id: string }[],
): void {
  const known = new Set(poles.map(({ id }) => id))
  const unknown = waiting.filter((id) => !known.has(id))
  if (unknown.length > 0) {
    throw new UsageError(`--waiting names poles that are not in the feeder: ${unknown.join(', ')}.`)
  }
}
