import { gamma, sqrt } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { binomialLimits } from '#domain/avian/account/binomial-limits.ts'
import { meanDaysOfHalfLife, sharePersisting } from '#domain/avian/account/persistence.ts'
import { poissonLimits, poissonUpperLimit } from '#domain/avian/account/poisson-limits.ts'
import { eventsToShow } from '#domain/avian/account/power.ts'
import { rateRatio } from '#domain/avian/account/rate-ratio.ts'

/** Simpson's rule on so many strips. */
function integral(of: (x: number) => number, from: number, to: number, strips = 4000): number {
  const width = (to - from) / strips
  let sum = of(from) + of(to)
  for (let at = 1; at < strips; at += 1) sum += of(from + at * width) * (at % 2 === 1 ? 4 : 2)
  return (sum * width) / 3
}

/** Chance of at most n events by the chi-square distribution of 2n + 2 degrees of freedom. */
function chanceByChiSquare(n: number, mean: number): number {
  const density = (x: number) => (x ** n * Math.exp(-x / 2)) / (2 ** (n + 1) * gamma(n + 1))
  return 1 - integral(density, 0, 2 * mean)
}

describe('exact limits of a count', () => {
  // Two-sided 95 %: Garwood, Biometrika 28 (1936) 437–442; rounded to three digits.
  it.each([
    [0, 0, 3.689],
    [1, 0.025, 5.572],
    [2, 0.242, 7.225],
    [3, 0.619, 8.767],
    [4, 1.09, 10.242],
    [5, 1.623, 11.668],
    [6, 2.202, 13.059],
    [7, 2.814, 14.423],
    [8, 3.454, 15.763],
    [9, 4.115, 17.085],
    [10, 4.795, 18.39],
    [15, 8.395, 24.74],
    [20, 12.217, 30.888],
    [30, 20.241, 42.827],
    [50, 37.111, 65.919],
  ])('of %i events are the published %f to %f', (count, low, high) => {
    const limits = poissonLimits(count)
    expect(limits.low).toBeCloseTo(low, 3)
    expect(limits.high).toBeCloseTo(high, 3)
  })

  it.each([1, 4, 17, 60])('of %i events leave 2.5 %% on either side by chi-square', (count) => {
    const { low, high } = poissonLimits(count)
    expect(1 - chanceByChiSquare(count - 1, low)).toBeCloseTo(0.025, 8)
    expect(chanceByChiSquare(count, high)).toBeCloseTo(0.025, 8)
  })

  it('still allows about three events where none was found', () => {
    expect(poissonLimits(0)).toEqual({ low: 0, high: expect.closeTo(-Math.log(0.025), 12) })
    expect(poissonUpperLimit(0)).toBeCloseTo(2.996, 3)
  })

  it('holds for counts at which the plain probabilities vanish', () => {
    // Normal approximation of the chi-square after Wilson and Hilferty, PNAS 17 (1931) 684–688.
    const by = (n: number, z: number) => n * (1 - 1 / (9 * n) + z / (3 * Number(sqrt(n)))) ** 3
    const { low, high } = poissonLimits(5000)
    expect(low / by(5000, -1.959964)).toBeCloseTo(1, 5)
    expect(high / by(5001, 1.959964)).toBeCloseTo(1, 5)
  })
})

describe('exact limits of a share', () => {
  // The four examples of Newcombe, Statistics in Medicine 17 (1998) 857–872, table I, row of
  // Clopper and Pearson; from memory.
  it.each([
    [81, 263, 0.2527, 0.3676],
    [15, 148, 0.0578, 0.1617],
    [0, 20, 0, 0.1684],
    [1, 29, 0.0009, 0.1776],
  ])('of %i in %i are the published %f to %f', (hits, trials, low, high) => {
    const limits = binomialLimits(hits, trials)
    expect(limits.low).toBeCloseTo(low, 4)
    expect(limits.high).toBeCloseTo(high, 4)
  })

  it('mirror those of the share that is left', () => {
    const of = binomialLimits(7, 31)
    const rest = binomialLimits(24, 31)
    expect(of.low).toBeCloseTo(1 - rest.high, 12)
    expect(of.high).toBeCloseTo(1 - rest.low, 12)
  })
})

describe('rate after against rate before', () => {
  it('has the limits that the exact conditional test gives for a published example', () => {
    // 11 cases in 800 against 21 in 3011: the example of the exact test of two Poisson rates in the
    // manual of R (stats, poisson.test): 1.971488, 95 % 0.8584264 to 4.2772659; from memory.
    const found = rateRatio({ events: 21, poleYears: 3011 }, { events: 11, poleYears: 800 })
    expect(found?.ratio).toBeCloseTo(1.971488, 6)
    expect(found?.low).toBeCloseTo(0.8584264, 6)
    expect(found?.high).toBeCloseTo(4.2772659, 6)
  })

  it('says nothing of an upper limit where nothing was found before', () => {
    const found = rateRatio({ events: 0, poleYears: 100 }, { events: 3, poleYears: 100 })
    expect(found).toMatchObject({ ratio: null, high: null })
    expect(found?.low).toBeGreaterThan(0)
  })

  it('is left open where nothing was found at all, or nothing was watched', () => {
    const none = { events: 0, poleYears: 100 }
    expect(rateRatio(none, none)).toBeNull()
    expect(rateRatio({ events: 2, poleYears: 0 }, none)).toBeNull()
  })
})

describe('carcasses that are still there', () => {
  // Half gone in 7 days, as Kemper and others (2013) found for more than half; shares computed.
  it.each([
    [7, 0.72],
    [14, 0.54],
    [30, 0.32],
    [90, 0.11],
  ])('at searches every %i days are %f of them', (intervalDays, share) => {
    const meanDays = meanDaysOfHalfLife(7)
    expect(meanDays).toBeCloseTo(10.1, 1)
    expect(sharePersisting(meanDays, intervalDays)).toBeCloseTo(share, 2)
    const averaged = integral((x) => 2 ** (-x / 7), 0, intervalDays) / intervalDays
    expect(sharePersisting(meanDays, intervalDays)).toBeCloseTo(averaged, 10)
  })
})

describe('events that it takes to show a halving', () => {
  it('are about 46 before and 23 after, watched for equally long', () => {
    const { before, after } = eventsToShow(0.5)
    expect(Math.ceil(before)).toBe(46)
    expect(Math.ceil(after)).toBe(23)
  })

  it('show it in about four of five cases, counted through case by case', () => {
    const { before, after } = eventsToShow(0.5)
    const chances = (mean: number) => {
      const list = [Math.exp(-mean)]
      for (let n = 1; n < 150; n += 1) list.push((list[n - 1] ?? 0) * (mean / n))
      return list
    }
    const [first, second] = [chances(before), chances(after)]
    // The test by square roots: variance of the difference is 1/4 + 1/4.
    const isShown = (a: number, b: number) =>
      (Math.sqrt(a) - Math.sqrt(b)) / Math.sqrt(0.5) > 1.959964
    let power = 0
    for (const [a, chanceA] of first.entries()) {
      for (const [b, chanceB] of second.entries()) if (isShown(a, b)) power += chanceA * chanceB
    }
    expect(power).toBeGreaterThan(0.77)
    expect(power).toBeLessThan(0.83)
  })
})
