import { expect, it } from 'vitest'
import { candidateShares } from '../../../web/planner/candidate-shares.ts'

const score = (span: string, customersOutside: number, lowestVolts120: number) => ({
  pole: span,
  span,
  customersOutside,
  lowestVolts120,
  lossKw: 1,
})

it('shades by customers left outside, best strongest', () => {
  const shares = candidateShares([score('a', 40, 116), score('b', 0, 117), score('c', 20, 118)])
  expect([...shares]).toEqual([
    ['a', 0],
    ['b', 1],
    ['c', 0.5],
  ])
})

it('shades by the lowest voltage where all leave the same outside', () => {
  const shares = candidateShares([score('a', 5, 116), score('b', 5, 118)])
  expect([shares.get('a'), shares.get('b')]).toEqual([0, 1])
})

it('shades all alike where none is better', () => {
  expect([...candidateShares([score('a', 0, 120), score('b', 0, 120)]).values()]).toEqual([1, 1])
})
