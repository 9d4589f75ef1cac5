import { expect, it } from 'vitest'
import { M_PER_FT, M_PER_MILE } from '#domain/units/length.ts'
import { readDemoFeeder } from '../../support/demo-feeder.ts'

it.each(['skillet', 'thimble'])('directions on %s say every distance in both units', async (id) => {
  const { poles } = await readDemoFeeder(id)
  const said = poles.flatMap(({ location }) => location ?? [])
  expect(said.length).toBeGreaterThan(100)
  for (const words of said) {
    const metric = words.match(/[\d,.]+ k?m\b/g) ?? []
    const both = [...words.matchAll(/([\d,.]+) (ft|mi) \(([\d,]+) m\)/g)]
    expect({ words, metric: metric.length }).toEqual({ words, metric: both.length })
    for (const [, us = '', unit, metres = ''] of both) {
      const number = (text: string) => Number(text.replaceAll(',', ''))
      const inMetres = number(us) * (unit === 'ft' ? M_PER_FT : M_PER_MILE)
      // As far apart as rounding either of them to what a driver can see may take them.
      expect(Math.abs(inMetres - number(metres))).toBeLessThanOrEqual(unit === 'ft' ? 10 : 81)
    }
  }
})
