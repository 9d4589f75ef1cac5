import { beside, lineLength, partOf, simplified } from './curve.ts'
import type { Field } from './fields.ts'
import { type LandFeature, lineFeature } from './land-feature.ts'
import type { Road } from './valley.ts'

const ROAD_FENCE_M = 24

/** Fences round square fields and along both sides of the county roads, broken at the turn-offs. */
export function fenceFeatures(fields: readonly Field[], roads: readonly Road[]): LandFeature[] {
  return [
    ...fields
      .filter(({ kind }) => kind !== 'pivot')
      .map(({ ring }) => lineFeature(ring, { kind: 'field' })),
    ...roads.filter(({ kind }) => kind === 'county').flatMap(roadFences),
  ]
}

function roadFences({ line }: Road): LandFeature[] {
  const pieces: LandFeature[] = []
  const total = lineLength(line)
  for (let fromM = 2_900; fromM < total - 400; fromM += 2_600) {
    const piece = partOf(line, fromM, Math.min(total - 200, fromM + 2_350))
    for (const side of [-1, 1]) {
      pieces.push(lineFeature(simplified(beside(piece, side * ROAD_FENCE_M), 2), { kind: 'road' }))
    }
  }
  return pieces
}
