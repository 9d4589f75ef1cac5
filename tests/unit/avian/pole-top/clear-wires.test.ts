import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { contactPairs } from '../../../../server/domain/avian/pole-top/contact-pairs.ts'
import { pairInWords } from '../../../../server/domain/avian/pole-top/pair-words.ts'
import { poleSites } from '../../../../server/domain/avian/pole-top/pole-sites.ts'
import type { PoleSite } from '../../../../server/domain/avian/pole-top/pole-top.ts'
import { poleTopOf } from '../../../../server/domain/avian/pole-top/pole-top-of.ts'
import { readFeederFolder } from '../../../../server/layer-files/feeder-folder.ts'
import { IN } from './site-of.ts'

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
