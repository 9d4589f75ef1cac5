import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { contactPairs } from '../../../../server/domain/avian/pole-top/contact-pairs.ts'
import { FRAMINGS } from '../../../../server/domain/avian/pole-top/framing.ts'
import { pairInWords } from '../../../../server/domain/avian/pole-top/pair-words.ts'
import { poleSites } from '../../../../server/domain/avian/pole-top/pole-sites.ts'
import type { PoleSite } from '../../../../server/domain/avian/pole-top/pole-top.ts'
import { poleTopOf } from '../../../../server/domain/avian/pole-top/pole-top-of.ts'
import { readFeederFolder } from '../../../../server/layer-files/feeder-folder.ts'
import { IN, regulator, siteOf, transformer } from './site-of.ts'

const feeders = await Promise.all(
  ['skillet', 'thimble'].map(async (name) => {
    const folder = fileURLToPath(new URL(`../../../../geodata/demo/${name}`, import.meta.url))
    const { feeder } = await readFeederFolder(folder)
    if (!feeder) throw new Error(`Expected ${folder} to be a feeder.`)
    return feeder
  }),
)
const sites = feeders.flatMap((feeder) => poleSites(feeder, []))

/** Closer than that nobody builds: bare wire to what is not its own. */
const TOUCHING_M = 1.5 * IN
const EAGLE = { breadthM: 60 * IN, heightM: 40 * IN }

function touching(site: PoleSite): string[] {
  return contactPairs(poleTopOf(site)?.parts ?? [], EAGLE)
    .filter(({ distanceM }) => distanceM < TOUCHING_M)
    .map((pair) => `${site.pole.framing} ${site.pole.id}: ${pairInWords(pair, 'eagle', true)}`)
}

describe('pole tops of the demo', () => {
  it('are drawn for every pole, with ids that are unique on it', () => {
    const poleIds = feeders.flatMap(({ poles }) => poles.map(({ id }) => id))
    expect(sites.map(({ pole }) => pole.id)).toEqual(poleIds)
    for (const site of sites) {
      const top = poleTopOf(site)
      const ids = top?.parts.map(({ id }) => id) ?? []
      expect(ids.length, site.pole.id).toBeGreaterThan(3)
      expect(new Set(ids).size, site.pole.id).toBe(ids.length)
    }
  })

  it('have no bare part that touches one of another potential', () => {
    expect(sites.flatMap(touching)).toEqual([])
  })

  it('bring every tank, bushing and contact of what the record has on the pole', () => {
    for (const site of sites) {
      const { parts = [] } = poleTopOf(site) ?? {}
      for (const { id, kind, phases } of site.equipment) {
        if (kind !== 'transformer' && kind !== 'regulator' && kind !== 'capacitor') continue
        const tanks = parts.filter((part) => part.kind === 'tank' && part.id.startsWith(`${id}-`))
        expect(tanks.length, `${site.pole.id} ${id}`).toBe(phases.length)
      }
    }
  })
})

describe('pole tops of every framing', () => {
  const fused = { id: 'F', kind: 'fuse', phases: 'ABC', span: 'S' }
  const onBracket = (kind: string) => ({ id: kind, kind, phases: 'ABC' })
  const hanging: readonly (readonly object[])[] = [
    transformer('ABC'),
    transformer('B').slice(0, 1),
    [onBracket('arrester')],
    [onBracket('capacitor'), onBracket('cutout'), onBracket('arrester')],
    [onBracket('riser'), onBracket('cutout'), onBracket('arrester')],
    [{ ...fused, kind: 'switch' }],
  ]
  const inSeries: readonly (readonly object[])[] = [
    [fused],
    [{ ...fused, kind: 'recloser' }, onBracket('arrester')],
    [regulator()],
  ]
  const withArm = FRAMINGS.filter((framing) => framing.includes('arm'))
  const regulators = [
    {},
    { regulatorMounting: 'on the pole' },
    { regulatorConnection: 'open delta' },
    { regulatorConnection: 'closed delta' },
    { regulatorMounting: 'on the pole', regulatorConnection: 'closed delta' },
  ] as const

  it.each([...withArm, 'vertical corner', 'pole-top pin'])(
    'of %s have no bare part that touches one of another potential, whatever hangs on them',
    (framing) => {
      const all = hanging.flatMap((equipment) =>
        ['', 'B', 'ABC'].map((tap) => siteOf({ framing, equipment, tap })),
      )
      expect(all.flatMap(touching)).toEqual([])
    },
  )

  it.each(withArm)(
    'of %s have none either with what stands in series, however regulators are mounted and joined',
    (framing) => {
      const all = inSeries.flatMap((equipment) =>
        ['', 'ABC'].flatMap((tap) =>
          regulators.map((choice) => siteOf({ framing, equipment, tap, choice })),
        ),
      )
      expect(all.flatMap(touching)).toEqual([])
    },
  )
})
