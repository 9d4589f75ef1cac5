import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Finding } from '#domain/feeder/finding.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import { distanceM, pathLengthM } from '#domain/network/path-length.ts'
import { type FindingSubject, finding } from './layer-finding.ts'
import type { FeatureLayerName } from './layer-table.ts'

/** Points of equipment, loads and covers as the files have them, by layer and id. */
export type FilePoints = Partial<Record<FeatureLayerName, ReadonlyMap<string, Position>>>

/** Beyond this, drawing and record disagree and the person is told (common practice, no source). */
const NOTICEABLE_M = 10
/** Beyond this, one of the two must be wrong (common practice, no source). */
const WRONG_M = 150
/** A recorded length this far from the drawn one is worth a look: sag and slack give a few percent. */
const LENGTH_RATIO = 1.25

/** Places that disagree: things drawn away from their pole, spans that end beside theirs. */
export function checkPlaces(feeder: Feeder, points: FilePoints): Finding[] {
  const poles = new Map(feeder.poles.map(({ id, at }) => [id, at]))
  const paths = new Map(feeder.spans.map(({ id, path }) => [id, path]))
  const onPole = (
    layer: FeatureLayerName,
    items: readonly { id: string; pole?: string; span?: string }[],
  ) =>
    items.flatMap((item) => {
      const point = points[layer]?.get(item.id)
      const pole = item.pole === undefined ? undefined : poles.get(item.pole)
      const path = item.span === undefined ? undefined : paths.get(item.span)
      if (!point) return []
      const subject = { layer, featureId: item.id, place: point }
      if (pole) return offPlace(subject, distanceM(point, pole), `pole "${item.pole}"`)
      return path ? offPlace(subject, distanceToPathM(point, path), `span "${item.span}"`) : []
    })
  return [
    ...spanFindings(feeder, poles),
    ...onPole('equipment', feeder.equipment),
    ...onPole('loads', feeder.loads),
    ...onPole('covers', feeder.protections),
  ]
}

function offPlace(subject: FindingSubject, awayM: number, target: string): Finding[] {
  if (awayM <= NOTICEABLE_M) return []
  const severity = awayM > WRONG_M ? 'error' : 'warning'
  const what = `It is drawn ${Math.round(awayM)} m from its ${target}.`
  return [finding(severity, 'drawn-off-place', subject, what, `Move the point, or name another.`)]
}

function spanFindings(feeder: Feeder, poles: ReadonlyMap<string, Position>): Finding[] {
  const isToScale = feeder.header.coordinates !== 'schematic'
  return feeder.spans.flatMap(({ id, path, from, to, lengthM, lineType }) => {
    const subject = { layer: 'spans' as const, featureId: id, place: path[0] ?? null }
    const ends = [
      { name: from, end: path[0] },
      { name: to, end: path.at(-1) },
    ]
    const findings = ends.flatMap(({ name, end }) => {
      const pole = poles.get(name)
      return pole && end ? offPlace(subject, distanceM(pole, end), `pole "${name}"`) : []
    })
    const drawnM = pathLengthM(path)
    const isOff =
      lengthM !== undefined && (lengthM > drawnM * LENGTH_RATIO || lengthM * LENGTH_RATIO < drawnM)
    if (isToScale && lineType !== undefined && isOff && Math.abs(lengthM - drawnM) > NOTICEABLE_M) {
      const what = `Its length_m is ${Math.round(lengthM)}, but the span is drawn ${Math.round(drawnM)} m long.`
      const remedy = 'Correct one of the two; length_m is used.'
      findings.push(finding('warning', 'length-differs', subject, what, remedy))
    }
    return findings
  })
}

/** Least distance to a line, metres, on a plane that touches the earth at the point. */
function distanceToPathM(point: Position, path: readonly Position[]): number {
  const scale = Math.cos((point[1] * Math.PI) / 180)
  const flat = path.map(([lon, lat]) => [(lon - point[0]) * scale, lat - point[1]] as const)
  let nearest: Position = path[0] ?? point
  let least = Number.POSITIVE_INFINITY
  for (let i = 1; i < flat.length; i++) {
    const [ax, ay] = flat[i - 1] ?? [0, 0]
    const [bx, by] = flat[i] ?? [0, 0]
    const square = (bx - ax) ** 2 + (by - ay) ** 2
    const along = square === 0 ? 0 : -(ax * (bx - ax) + ay * (by - ay)) / square
    const share = Math.min(1, Math.max(0, along))
    const x = ax + share * (bx - ax)
    const y = ay + share * (by - ay)
    const away = Math.hypot(x, y)
    if (away >= least) continue
    least = away
    nearest = [point[0] + x / scale, point[1] + y]
  }
  return distanceM(point, nearest)
}
