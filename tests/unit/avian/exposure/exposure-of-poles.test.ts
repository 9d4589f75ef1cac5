import { destination, point } from '@turf/turf'
import { describe, expect, it } from 'vitest'
import { BirdSettings } from '#domain/avian/bird-settings.ts'
import { exposureOfPoles, UNKNOWN_SCORE } from '#domain/avian/exposure/exposure-of-poles.ts'
import { surroundingsOfLand } from '#domain/avian/exposure/surroundings-of-land.ts'
import { exposureWeights } from '#domain/avian/exposure/weights.ts'
import type { Incident } from '#domain/feeder/birds.ts'
import type { Area, Position } from '#domain/feeder/geometry.ts'
import { birdFeeder, nestAt, poleWith } from '../bird-feeder.ts'

const AT: Position = [-107, 43]
const away = (lengthM: number, bearing = 0) =>
  destination(point(AT), lengthM, bearing, { units: 'meters' }).geometry.coordinates as Position
const square = (halfM: number): Area => {
  const [north, east, south, west] = [0, 90, 180, 270].map((bearing) => away(halfM, bearing))
  if (!north || !east || !south || !west) throw new Error('Expected four corners.')
  return [[north, east, south, west, north]]
}
const find = (at: Position, changes: Partial<Incident> = {}): Incident => ({
  id: 'F-1',
  at,
  foundOn: '2026-05-01',
  species: 'golden eagle',
  cause: 'confirmed electrocution',
  ...changes,
})
const onePole = (record: Parameters<typeof birdFeeder>[1] = {}) =>
  birdFeeder([poleWith({}, 'P-1', AT)], record)
const only = (feeder: ReturnType<typeof onePole>, ...rest: [BirdSettings?]) =>
  exposureOfPoles(feeder, ...rest)[0]

describe('exposure of a pole', () => {
  it('is told from a nest in use with its distance in the reason', () => {
    const found = only(onePole({ nests: [nestAt(away(240))] }))
    expect(found?.reasons[0]).toBe('Golden eagle nest, in use, 787 ft (240 m) away')
    expect(found?.factors.nest).toBeCloseTo(1 - 240 / 3218.688, 3)
  })

  it('is less for a nest that is farther, not in use, or of another species', () => {
    const nest = (lengthM: number, changes = {}) =>
      only(onePole({ nests: [nestAt(away(lengthM), changes)] }))?.factors.nest ?? 0
    expect(nest(400)).toBeGreaterThan(nest(800))
    expect(nest(400)).toBeGreaterThan(nest(400, { status: 'unknown' }))
    expect(nest(400, { status: 'unknown' })).toBeGreaterThan(nest(400, { status: 'not in use' }))
    expect(nest(400)).toBeGreaterThan(nest(400, { species: 'Barn owl' }))
    expect(nest(4000)).toBe(0)
  })

  it('is not known where nothing is recorded, and nobody reads that as safe', () => {
    const found = only(onePole())
    expect(new Set(Object.values(found?.factors ?? {}))).toEqual(new Set([null]))
    expect(found?.score).toBe(UNKNOWN_SCORE)
    expect(found?.reasons).toEqual([
      'nothing is recorded that tells of birds here; taken as middling',
    ])
  })

  it('counts finds by cause and distance, one on the pole itself in full', () => {
    const value = (finds: Incident[]) =>
      only(onePole({ incidents: finds }))?.factors['incidents nearby'] ?? 0
    expect(value([find(away(30), { pole: 'P-1' })])).toBeCloseTo(0.9, 9)
    expect(value([find(away(500))])).toBeGreaterThan(value([find(away(500), { cause: 'shot' })]))
    expect(value([find(away(500)), find(away(900), { id: 'F-2' })])).toBeGreaterThan(
      value([find(away(500))]),
    )
    const reasons = only(onePole({ incidents: [find(away(30), { pole: 'P-1' })] }))?.reasons
    expect(reasons).toEqual(['golden eagle found 2026-05-01 on this pole, confirmed electrocution'])
  })

  it('counts habitat inside it and not outside', () => {
    const habitat = [{ id: 'H-1', name: 'Prairie-dog town', area: square(500) }]
    const at = (place: Position) =>
      exposureOfPoles({ ...birdFeeder([poleWith({}, 'P-1', place)]), habitat })[0]
    expect(at(AT)?.factors.habitat).toBe(1)
    expect(at(AT)?.reasons).toContain('inside habitat: Prairie-dog town')
    expect(at(away(900))?.factors.habitat).toBe(0)
  })

  it('knows open and wooded ground and relief only from the land around', () => {
    const ground = (kind: string, halfM: number) => ({
      type: 'Feature' as const,
      properties: { kind },
      geometry: { type: 'Polygon' as const, coordinates: square(halfM) },
    })
    const hill = [20, 200, 400, 700].map((lengthM, step) => ({
      type: 'Feature' as const,
      properties: { height_m: 1500 - 20 * step },
      geometry: {
        type: 'LineString' as const,
        coordinates: [0, 72, 144, 216, 288, 360].map((bearing) => away(lengthM, bearing)),
      },
    }))
    const land = surroundingsOfLand({
      ground: { features: [ground('sagebrush', 3000), ground('pine', 100)] },
      contours: { features: hill },
    })
    const feeder = birdFeeder([poleWith({}, 'P-1', AT), poleWith({}, 'P-2', away(650))])
    const [onTop, below] = exposureOfPoles(feeder, undefined, land)
    expect(onTop?.factors['open ground']).toBe(0.1)
    expect(below?.factors['open ground']).toBe(1)
    expect(below?.reasons).toContain('open ground: sagebrush')
    expect(onTop?.factors.prominence).toBeGreaterThan(0.9)
    expect(below?.factors.prominence).toBe(0)
  })

  it('is more for a pole taller than those beside it', () => {
    const poles = [12, 15, 12].map((heightM, index) => ({
      ...poleWith({}, `P-${index}`, away(100 * (index + 1))),
      heightM,
    }))
    const taller = exposureOfPoles(birdFeeder(poles)).map(
      ({ factors }) => factors['taller than neighbours'],
    )
    expect(taller).toEqual([0, 1, 0])
  })

  it('goes by the weights that the utility set', () => {
    const settings = BirdSettings.parse({ weights: { nest: 0 } })
    expect(exposureWeights(settings).nest).toBe(0)
    const record = { nests: [nestAt(away(240))], incidents: [find(away(500))] }
    const feeder = onePole(record)
    expect(only(feeder, settings)?.score).toBeCloseTo(
      only(feeder)?.factors['incidents nearby'] ?? 0,
      12,
    )
  })

  it('leaves out points that stand for no pole', () => {
    const poles = [poleWith({}, 'P-1', AT), { ...poleWith({}, 'N-2', AT), isAnonymousNode: true }]
    expect(exposureOfPoles(birdFeeder(poles)).map(({ poleId }) => poleId)).toEqual(['P-1'])
  })
})
