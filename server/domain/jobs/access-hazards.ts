import { feetInWords } from '#domain/units/length.ts'
import { PointGrid } from '../avian/exposure/point-grid.ts'
import type { Position } from '../feeder/geometry.ts'
import type { Access } from '../feeder/land.ts'
import { findAccess } from '../siting/access-distance.ts'
import type { DraftScene } from './draft-scene.ts'
import type { Hazard } from './job-plan.ts'

/** A gate farther away than this is not taken to lie on the way, metres (an assumption). */
const GATE_WITHIN_M = 2000
const SOURCE = 'Roads, tracks and gates as recorded with the feeder; straight distances'

/** The pole that lies farthest from a road, and the gates near the poles. */
export function accessHazards({ feeder, works }: DraftScene): Hazard[] {
  if (feeder.header.coordinates === 'schematic') return []
  const placeOf = new Map(feeder.poles.map(({ id, at }) => [id, at]))
  const poles = works.flatMap(({ pole }) => {
    const at = placeOf.get(pole)
    return at ? [{ pole, at }] : []
  })
  return [...farthestFromRoad(feeder.access, poles), ...gatesNear(feeder.access, poles)]
}

interface PlacedPole {
  readonly pole: string
  readonly at: Position
}

function farthestFromRoad(access: readonly Access[], poles: readonly PlacedPole[]): Hazard[] {
  const finder = findAccess(access)
  const [farthest] = poles
    .map(({ at, pole }) => ({ pole, awayM: finder.distanceM(at) }))
    .filter((each): each is { pole: string; awayM: number } => each.awayM !== null)
    .toSorted((a, b) => b.awayM - a.awayM)
  if (!farthest) {
    return [
      {
        about: 'access',
        what: 'No road or track is recorded with this feeder: how a truck gets there is not known.',
        source: SOURCE,
      },
    ]
  }
  const { awayM, pole } = farthest
  const start = poles.length > 1 ? 'Farthest of the poles from a road or track' : 'Road or track'
  return [{ about: 'access', what: `${start}: ${feetInWords(awayM)} away.`, pole, source: SOURCE }]
}

/** Each gate once, at the pole nearest to it. */
function gatesNear(access: readonly Access[], poles: readonly PlacedPole[]): Hazard[] {
  const grid = new PointGrid(poles, ({ at }) => at, GATE_WITHIN_M)
  return access
    .filter(({ kind }) => kind === 'gate')
    .flatMap((gate) => {
      const middle = middleOf(gate)
      const [nearest] = middle ? grid.within(middle, GATE_WITHIN_M) : []
      if (!nearest) return []
      const away = feetInWords(nearest.distanceM)
      const note = gate.note === undefined ? '' : ` Noted with it: ${gate.note}.`
      return [
        {
          about: 'access' as const,
          what: `Gate “${gate.name ?? gate.id}”: ${away} from the pole.${note}`,
          pole: nearest.item.pole,
          source: SOURCE,
        },
      ]
    })
}

function middleOf({ path }: Access): Position | undefined {
  return path[Math.floor((path.length - 1) / 2)]
}
