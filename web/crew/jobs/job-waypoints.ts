import type { Job } from '#contract/jobs.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { poleWaypoints } from '#domain/jobs/pole-waypoints.ts'
import type { Waypoint } from '#domain/jobs/waypoint-files.ts'
import { accessToPole } from '../../jobs/places/nearest-access.ts'

/** The poles of a job in the order of its round, then the gates by which they are reached. */
export function jobWaypoints(
  { title }: Pick<Job, 'title'>,
  feeder: Feeder,
  order: readonly string[],
): Waypoint[] {
  const stops = poleWaypoints(feeder, order)
  const gates = new Map<string, Waypoint>()
  for (const { name: poleId, at } of stops) {
    const { gate } = accessToPole(at, feeder.access)
    if (!gate || gates.has(gate.access.id)) continue
    const { id, name, note } = gate.access
    gates.set(id, {
      name: name ?? id,
      at: gate.at,
      description: [`Gate toward pole ${poleId}`, note].filter(Boolean).join(': '),
    })
  }
  return [
    ...stops.map((stop) => ({ ...stop, description: `${title}. ${stop.description}` })),
    ...gates.values(),
  ]
}

/** "change-out-at-s-145.gpx": a file name that every device takes. */
export function fileNameOf(title: string, ending: string): string {
  const plain = title
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 60)
    .replace(/^-+|-+$/g, '')
  return `${plain || 'job'}.${ending}`
}
