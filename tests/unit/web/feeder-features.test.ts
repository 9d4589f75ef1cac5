import { describe, expect, it } from 'vitest'
import { Equipment } from '#domain/feeder/equipment.ts'
import {
  equipmentFeatures,
  poleFeatures,
  spanFeatures,
} from '../../../web/map/feeder/feeder-features.ts'
import {
  bearingDeg,
  lineDirectionDeg,
  uprightTurnDeg,
} from '../../../web/map/feeder/line-bearing.ts'
import { modelFeeder } from '../../../web/state/feeder-model.ts'
import { smallFeeder } from '../../support/small-feeder.ts'

describe('the direction of the line', () => {
  it('is measured clockwise from north', () => {
    expect(bearingDeg([-107, 43], [-107, 43.1])).toBeCloseTo(0, 6)
    expect(bearingDeg([-107, 43], [-106.9, 43])).toBeCloseTo(90, 6)
    expect(bearingDeg([-107, 43], [-107, 42.9])).toBeCloseTo(180, 6)
  })

  it('is the same whichever way the spans are recorded', () => {
    expect(lineDirectionDeg([90, 270])).toBeCloseTo(90, 6)
    expect(lineDirectionDeg([30, 30])).toBeCloseTo(30, 6)
  })

  it('bisects a corner', () => {
    expect(lineDirectionDeg([0, 90])).toBeCloseTo(45, 6)
  })

  it('never turns a symbol upside down', () => {
    for (const direction of [0, 45, 90, 179]) {
      expect(Math.abs(uprightTurnDeg(direction))).toBeLessThanOrEqual(90)
    }
  })
})

describe('features of a feeder', () => {
  const plain = smallFeeder()
  const equipment = [
    Equipment.parse({ kind: 'capacitor', id: 'cap', pole: 'P3', phases: 'ABC', kvarA: 50 }),
    Equipment.parse({
      kind: 'switch',
      id: 'sw',
      pole: 'P3',
      span: 'S3',
      phases: 'ABC',
      state: 'open',
    }),
    Equipment.parse({ kind: 'transformer', id: 'tr', pole: 'P2', phases: 'A', ratingKva: 25 }),
  ]
  const model = modelFeeder({ ...plain, equipment })
  const items = equipmentFeatures(model).features.map(({ properties }) => properties)

  it('draw a span behind an open switch as open', () => {
    const open = spanFeatures(model).features.filter(({ properties }) => properties.isOpen)
    expect(open.map(({ properties }) => properties.id)).toEqual(['S3'])
  })

  it('draw the arm of an end pole differently', () => {
    const symbols = poleFeatures(model).features.map(({ properties }) => properties.symbol)
    expect(symbols).toEqual(['pole-end', 'pole-arm', 'pole-arm', 'pole-arm', 'pole-end'])
  })

  it('show from far what decides the voltage, and set neighbours on a pole apart', () => {
    const onP3 = items.filter(({ pole, symbol }) => pole === 'P3' && symbol !== 'load')
    expect(onP3.map(({ symbol }) => symbol)).toEqual(['capacitor', 'switch-open'])
    expect(onP3.every(({ isMain }) => isMain)).toBe(true)
    expect(new Set(onP3.map(({ offset }) => offset.join())).size).toBe(2)
  })

  it('show a load by its transformer where there is one, and the source at its pole', () => {
    const symbolsAt = (pole: string) =>
      items.filter((item) => item.pole === pole).map(({ symbol }) => symbol)
    expect(symbolsAt('P2')).toEqual(['transformer'])
    expect(symbolsAt('P4')).toEqual(['load'])
    expect(symbolsAt('P1')).toEqual(['source'])
  })
})
