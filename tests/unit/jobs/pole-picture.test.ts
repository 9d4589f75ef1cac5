import { describe, expect, it } from 'vitest'
import { traceFeeder } from '#domain/network/trace-feeder.ts'
import { M_PER_FT } from '#domain/units/length.ts'
import { poleLink } from '../../../web/jobs/paper/pole-link.ts'
import { type PolePicture, polePicture } from '../../../web/jobs/paper/pole-picture.ts'
import { lineNeighbours } from '../../../web/jobs/places/line-neighbours.ts'
import { selectionOfAddress } from '../../../web/state/address.ts'
import { readDemoFeeder } from '../../support/demo-feeder.ts'

const feeder = await readDemoFeeder('skillet')
const trace = traceFeeder(feeder)
const FRAME = { widthPx: 400, heightPx: 300, units: 'us' } as const
const real = feeder.poles.filter(({ isAnonymousNode }) => !isAnonymousNode)

function pictureOf(poleId: string): PolePicture {
  const picture = polePicture(feeder, trace, poleId, FRAME)
  if (!picture) throw new Error(`No picture of ${poleId}.`)
  return picture
}

describe('the picture around a pole', () => {
  it('has the pole in its middle, and its neighbours named within it', () => {
    for (const { id } of real.filter((_, index) => index % 17 === 0)) {
      const { poles } = pictureOf(id)
      expect(poles.find(({ isTheOne }) => isTheOne)).toMatchObject({ id, x: 200, y: 150 })
      const { up, down, acrossOpen } = lineNeighbours(feeder, trace, id)
      const next = [...(up ? [up] : []), ...down, ...acrossOpen].map(({ poleId }) => poleId)
      const named = poles.filter(({ isNamed }) => isNamed).map((pole) => pole.id)
      expect(named.toSorted()).toEqual([...new Set([id, ...next])].toSorted())
    }
  })

  it('draws what lies north above, and what lies east to the right', () => {
    const { poles } = pictureOf('S-144')
    const [own] = poles.filter(({ isTheOne }) => isTheOne)
    const at = (id: string) => feeder.poles.find((pole) => pole.id === id)?.at ?? [0, 0]
    for (const { id, x, y, isNamed } of poles) {
      if (!own || !isNamed || id === own.id) continue
      expect(Math.sign(x - own.x)).toBe(Math.sign(at(id)[0] - at(own.id)[0]))
      expect(Math.sign(own.y - y)).toBe(Math.sign(at(id)[1] - at(own.id)[1]))
    }
  })

  /* WGS 84 has 111 132.954 − 559.822 cos 2φ + … metres to a degree of latitude; at 43.6° N 111 103. */
  it('has a scale that holds for its degrees of latitude, within 0.3 %', () => {
    const { scale, pxPerM } = pictureOf('S-144')
    const feet = Number(scale.words.replace(' ft', ''))
    expect(scale.lengthPx).toBeCloseTo(feet * M_PER_FT * pxPerM, 0)
    const northM = 100
    const pole = feeder.poles.find(({ id }) => id === 'S-144')
    if (!pole) throw new Error('There is no pole S-144.')
    const moved = { ...pole, id: 'north', at: [pole.at[0], pole.at[1] + northM / 111_103] as const }
    const with2 = {
      ...feeder,
      poles: [...feeder.poles, { ...moved, at: [...moved.at] as [number, number] }],
    }
    const picture = polePicture(with2, trace, 'S-144', FRAME)
    const north = picture?.poles.find(({ id }) => id === 'north')
    expect(Math.abs((150 - (north?.y ?? 0)) / (northM * pxPerM) - 1)).toBeLessThan(0.003)
  })

  it('names roads inside of the picture and clear of the pole', () => {
    const { access } = pictureOf('S-144')
    const names = access.flatMap(({ name }) => (name ? [name] : []))
    expect(names.map(({ words }) => words)).toContain('Skillet Road')
    for (const { x, y } of names) expect(Math.hypot(x - 200, y - 150)).toBeGreaterThan(40)
  })

  it('keeps names apart from each other, so that each can be read', () => {
    for (const { id } of real.filter((_, index) => index % 29 === 0)) {
      const names = pictureOf(id).access.flatMap(({ name }) => (name ? [name] : []))
      for (const [index, a] of names.entries()) {
        for (const b of names.slice(index + 1)) {
          expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThan(6)
        }
      }
    }
  })

  it('is missing for a pole that the feeder does not have', () => {
    expect(polePicture(feeder, trace, 'nowhere', FRAME)).toBeNull()
  })
})

describe('the link on a label', () => {
  it('opens the crew’s desk at the pole, on the server that printed it', () => {
    const place = new URL('https://crossarm.example/?person=planner&view=job~1&phase=A#x')
    const link = new URL(poleLink(place, 'skillet', 'S-144'))
    expect(link.origin + link.pathname).toBe('https://crossarm.example/')
    expect(selectionOfAddress(link.search)).toEqual({
      ...selectionOfAddress(''),
      person: 'crew',
      feeder: 'skillet',
      pole: 'S-144',
    })
  })
})
