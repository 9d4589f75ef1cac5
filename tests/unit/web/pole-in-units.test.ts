import { expect, it } from 'vitest'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import { currentInWords, voltsInUnits } from '../../../web/planner/pole-in-units.ts'
import { poleInWords } from '../../../web/planner/pole-in-words.ts'
import { convergedCase } from '../../../web/state/case-solutions.ts'
import { smallFeeder } from '../../support/small-feeder.ts'

const feeder = smallFeeder()
const solution = convergedCase(solveFeeder(feeder, { taps: 'fixed' }), 'peak')

it('gives the source per unit and in kilovolts to neutral', () => {
  const source = solution?.nodes.find(({ id }) => id === 'P1')
  // 12.47 kV between lines is 7.20 kV to neutral; 1.02 of it is 7.34 kV.
  expect(source && voltsInUnits(source)).toMatch(/^A 1\.0200 pu, 7\.34 kV; B /)
})

it('gives the current of each phase and its share of the ampacity', () => {
  const flow = solution?.spans.find(({ id }) => id === 'S1')
  const amps = flow?.current.A?.amps ?? 0
  const most = Math.max(...Object.values(flow?.current ?? {}).map((found) => found.amps))
  // The conductor of the small feeder may carry 180 A.
  const share = ((most / 180) * 100).toFixed(0)
  expect(flow && currentInWords(flow)).toMatch(
    new RegExp(`^A ${amps.toFixed(0)} A, .*; ${share} % of what its conductor may carry$`),
  )
})

it('puts a pole in words in the units of the reader', () => {
  const [pole] = feeder.poles
  expect(pole && poleInWords(pole, 'us')).toBe('45 ft wood pole, class 3.')
  expect(pole && poleInWords(pole, 'metric')).toBe('14 m wood pole, class 3.')
  expect(pole && poleInWords({ ...pole, isAnonymousNode: true }, 'us')).toContain('no known pole')
})
