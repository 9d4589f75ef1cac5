import { describe, expect, it } from 'vitest'
import { compassWord } from '#domain/units/compass-word.ts'
import { wayTo } from '../../../web/jobs/places/bearing.ts'

const dms = (degrees: number, minutes: number, seconds: number): number =>
  degrees + minutes / 60 + seconds / 3600

describe('the way to a pole', () => {
  it('matches Flinders Peak to Buninyong, 54972.271 m at 306°52′05.37″ (GDA technical manual, from memory), within 0.6 % and 0.3°', () => {
    const way = wayTo(
      [dms(144, 25, 29.52442), -dms(37, 57, 3.7203)],
      [dms(143, 55, 35.3839), -dms(37, 39, 10.15611)],
    )
    expect(Math.abs(way.distanceM / 54_972.271 - 1)).toBeLessThan(0.006)
    expect(Math.abs(way.bearingDeg - dms(306, 52, 5.37))).toBeLessThan(0.3)
  })

  it('has a bearing of 0 to below 360', () => {
    expect(wayTo([-107, 43], [-107, 44]).bearingDeg).toBeCloseTo(0, 9)
    expect(wayTo([-107, 43], [-107.001, 43]).bearingDeg).toBeCloseTo(270, 2)
  })
})

describe('compass words', () => {
  it('name the nearest of eight directions', () => {
    expect([0, 44, 91, 180, 200, 270, 337, 338, 359].map(compassWord)).toEqual([
      'north',
      'north-east',
      'east',
      'south',
      'south',
      'west',
      'north-west',
      'north',
      'north',
    ])
  })
})
