import { expect, test } from 'vitest'
import {
  bankCostUsd,
  energyLossKwhPerYear,
  presentWorthOfLosses,
} from '#domain/siting/present-worth.ts'
import { SitingMoney } from '#domain/siting/site-request.ts'

test('present worth sums agree with those computed apart from the project', () => {
  expect(presentWorthOfLosses(20, 7, 0)).toBeCloseTo(10.594, 3)
  expect(presentWorthOfLosses(20, 7, 2)).toBeCloseTo(14.507, 3)
  expect(presentWorthOfLosses(30, 7, 0)).toBeCloseTo(12.409, 3)
  expect(presentWorthOfLosses(30, 7, 2)).toBeCloseTo(19.222, 3)
})

test('without growth it is the annuity (1 − (1 + i)^−n)/i of any handbook of engineering economy', () => {
  expect(presentWorthOfLosses(12, 5, 0)).toBeCloseTo((1 - 1.05 ** -12) / 0.05, 12)
})

test('a bank costs its part per bank and its part per unit', () => {
  const money = SitingMoney.parse({ bankUsd: 30_000, unitUsd: 15_000 })
  expect(bankCostUsd(money, 3)).toBe(75_000)
})

test('energy lost in a year is kilowatts times hours over the cases', () => {
  expect(energyLossKwhPerYear([{ hoursPerYear: 500 }, { hoursPerYear: 8000 }], [100, 12])).toBe(
    146_000,
  )
})
