import type { BirdTools, Named } from './bird-tools.ts'
import { birdsJson } from './birds-json.ts'
import { birdsText } from './birds-text.ts'
import { type Command, UsageError } from './command.ts'
import { refusalCode, reportReading } from './finding-line.ts'
import { ProgressLine } from './progress-line.ts'
import { readArguments } from './read-arguments.ts'

const HELP = `Usage: crossarm birds <feeder folder> [--species <id>] [--land <folder>] [--json]

Says of every pole what a bird can bridge on it, and which measures close that at the least cost.

  <feeder folder>  a feeder folder, or one zip of it
  --species <id>   the bird that decides, as red-tailed-hawk; eagle without the option
  --land <folder>  land around the poles: ground.geojson and contours.geojson tell open ground and
                   relief, which bear on the order of the table
  --json           one JSON object instead of a table:
                   {feeder, species, poles: [{id, state,
                     pairs: [{partA, partB, horizontalM, verticalM}],
                     measures: [{kind, partIds, dimensionM?}], cost}]}
                   all poles, in the feeder's order; parts by their ids, metres, cost in USD without
                   the way there, null where no measure is known or the pole could not be drawn.
                   state is separated, covered, partly done, open, failed or unknown.

Progress is shown where the error stream is a terminal; an interrupt stops it.

Exit code: 0 done; 1 the feeder was refused; 2 bad usage or unreadable input.

Pole tops are drawn from what is recorded and, where that is silent, from usual dimensions: look at
the pole before anything is ordered. Covers protect birds from brief contact; they do not insulate
people.`

export const birdsCommand: Command = {
  name: 'birds',
  summary: 'say what birds can bridge on every pole, and what closes it',
  help: HELP,
  async run(args, streams, tools) {
    const { values, folder } = readArguments(args, {
      species: { type: 'string' },
      land: { type: 'string' },
      json: { type: 'boolean' },
    })
    const speciesId = await speciesOf(values.species, tools)
    const reading = await tools.readFolder(folder)
    reportReading(reading, streams, tools)
    const { feeder } = reading
    if (!feeder) return refusalCode(reading.findings, tools)
    const progress = new ProgressLine(streams)
    const answer = await tools.birds(
      feeder,
      { speciesId, landFolder: values.land },
      (done, total, phase) => progress.show(done, total, phase),
    )
    progress.clear()
    streams.out(
      values.json
        ? JSON.stringify(birdsJson(feeder.header.id, answer), null, 2)
        : birdsText(feeder, answer),
    )
    return 0
  },
}

/** Id of a species named by id or name. Throws `UsageError` naming those there are. */
export async function speciesOf(
  wanted: string | undefined,
  { birdSpecies }: Pick<BirdTools, 'birdSpecies'>,
): Promise<string | undefined> {
  return wanted === undefined ? undefined : namedOf('species', wanted, await birdSpecies())
}

/** Throws `UsageError` naming those there are. */
export function namedOf(option: string, wanted: string, known: readonly Named[]): string {
  const key = wanted.toLowerCase()
  const found = known.find(({ id, name }) => id === key || name.toLowerCase() === key)
  if (found) return found.id
  throw new UsageError(
    `--${option} takes ${known.map(({ id }) => id).join(', ')}, not "${wanted}".`,
  )
}
