import { type Command, UsageError } from './command.ts'
import { refusalCode, reportReading } from './finding-line.ts'
import { oneOf, readArguments } from './read-arguments.ts'

const HELP = `Usage: crossarm waypoints <feeder folder> [--poles <id,id,…>] [--as gpx|kml]

Writes poles as waypoints for a navigation device.

  <feeder folder>     a feeder folder, or one zip of it
  --poles <id,id,…>   which poles; all of the feeder without the option
  --as gpx            GPX 1.1, one waypoint a pole (what is written without the option)
  --as kml            KML 2.2, one placemark a pole

Each has the pole's id as its name, its place on WGS 84, and what hangs there in its description.
The file goes to the output: crossarm waypoints … > poles.gpx

Exit code: 0 written; 1 the feeder was refused; 2 bad usage or unreadable input.

A device leads to the place that is recorded, by roads that it knows: read the tag of the pole.`

export const waypointsCommand: Command = {
  name: 'waypoints',
  summary: 'write poles as waypoints for a navigation device',
  help: HELP,
  async run(args, streams, tools) {
    const { values, folder } = readArguments(args, {
      poles: { type: 'string' },
      as: { type: 'string' },
    })
    const form = oneOf('as', values.as, ['gpx', 'kml'])
    const wanted = idsOf(values.poles)
    const reading = await tools.readFolder(folder)
    reportReading(reading, streams, tools)
    const { feeder } = reading
    if (!feeder) return refusalCode(reading.findings, tools)
    const known = new Set(feeder.poles.map(({ id }) => id))
    const unknown = wanted?.filter((id) => !known.has(id)) ?? []
    if (unknown.length > 0) {
      throw new UsageError(`${feeder.header.id} has no pole ${unknown.join(', ')}.`)
    }
    streams.out((await tools.waypoints(feeder, form, wanted)).trimEnd())
    return 0
  },
}

/** Throws `UsageError` where none is named. */
function idsOf(list: string | undefined): string[] | undefined {
  if (list === undefined) return undefined
  const ids = list
    .split(',')
    .map((id) => id.trim())
    .filter((id) => id !== '')
  if (ids.length === 0) throw new UsageError('--poles takes ids of poles, as W-12,W-13.')
  return [...new Set(ids)]
}
