import { describe, expect, test } from 'vitest'
import {
  chooseCtPrimaryA,
  choosePtRatio,
  chooseReducedRangeUnit,
  chooseUnit,
  currentAtReducedRange,
  unitClassFor,
} from '#domain/siting/choose-unit.ts'
import { UNIT_CLASSES } from '#domain/siting/standard-units.ts'
import { lineToNeutralV } from '#domain/units/voltage-base.ts'

describe('Preferred regulator units (IEEE C57.15, from memory)', () => {
  test('every tabled kVA is rated kV times amperes times the 10 % range, but for rounding', () => {
    for (const { ratedKv, units } of UNIT_CLASSES) {
      for (const { ratingA, ratingKva } of units) {
        expect(Math.abs(ratingKva / (ratedKv * ratingA * 0.1) - 1)).toBeLessThan(0.005)
      }
    }
  })

  test('the voltage class is the nearest that may carry the line to neutral voltage', () => {
    const classOf = (kvLineToLine: number) => unitClassFor(lineToNeutralV(kvLineToLine))?.ratedKv
    expect([4.16, 8.32, 12.47, 13.2, 13.8, 22.9, 24.9, 34.5].map(classOf)).toEqual([
      2.5, 5, 7.62, 7.62, 7.62, 13.8, 14.4, 19.92,
    ])
    expect(classOf(69)).toBeUndefined()
  })

  test('the unit is the next above the peak current with its margin', () => {
    const unit = chooseUnit(7200, 162, 25)
    expect(unit).toMatchObject({ ratingA: 219, ratingKva: 167, isLargeEnough: true })
    expect(chooseUnit(7200, 100, 0)?.ratingA).toBe(100)
    expect(chooseUnit(7200, 100, 1)?.ratingA).toBe(150)
  })

  test('a current above the largest unit gives the largest and says that it is too small', () => {
    expect(chooseUnit(14400, 560, 25)).toMatchObject({ ratingA: 578, isLargeEnough: false })
  })

  test('4000 kVA at 12.47 kV takes 167 kVA, or 114.3 kVA held to 5 % (sizing example, computed)', () => {
    const peakA = 4000 / (Math.sqrt(3) * 12.47)
    expect(peakA).toBeCloseTo(185.2, 1)
    expect(chooseUnit(7200, peakA, 0)).toMatchObject({ ratingA: 219, ratingKva: 167 })
    expect(chooseReducedRangeUnit(7200, peakA, 8, 219)).toMatchObject({
      ratingA: 150,
      ratingKva: 114.3,
      tapLimit: 8,
      currentA: 240,
    })
  })
})

describe('Currents at reduced range (IEEE C57.15 supplementary ratings, from memory)', () => {
  test('a 219 A unit carries 219 to 350.4 A as its range is narrowed from 10 % to 5 %', () => {
    const carried = [16, 14, 12, 10, 8].map((steps) => currentAtReducedRange(219, steps))
    expect(carried.map((amps) => Math.round(amps * 10) / 10)).toEqual([
      219, 240.9, 262.8, 295.7, 350.4,
    ])
  })

  test('no supplementary rating is above 668 A, and no unit loses its own rating', () => {
    expect(currentAtReducedRange(546, 8)).toBe(668)
    expect(currentAtReducedRange(1093, 8)).toBe(1093)
  })
})

describe('Ratios of the instrument transformers', () => {
  test('the potential transformer is the tabled one, or nominal over 120 where none is near', () => {
    expect([4.16, 12.47, 24.94, 34.5].map((kv) => choosePtRatio(lineToNeutralV(kv)))).toEqual([
      20, 60, 120, 166,
    ])
    expect(choosePtRatio(lineToNeutralV(12.66))).toBeCloseTo(7309.2 / 120, 2)
  })

  test('the current transformer is the next usual primary at or above the rating', () => {
    expect([50, 219, 328, 668].map(chooseCtPrimaryA)).toEqual([50, 250, 350, 700])
  })
})
