import type { Feeder } from '#domain/feeder/feeder.ts'
import { assessPole } from '../../server/domain/avian/assessment/assess-pole.ts'
import { contactPairsOfSpecies } from '../../server/domain/avian/pole-top/contact-pairs.ts'
import { isElectrode, type Part } from '../../server/domain/avian/pole-top/part.ts'
import { poleSites } from '../../server/domain/avian/pole-top/pole-sites.ts'
import type { PoleSite } from '../../server/domain/avian/pole-top/pole-top.ts'
import { poleTopOf } from '../../server/domain/avian/pole-top/pole-top-of.ts'
import type { BirdSize } from '../../server/domain/avian/species/bird-species.ts'
import { birdSpecies, sizeOf } from '../../server/domain/avian/species/shipped-species.ts'
import { inWords, printTable } from './measure.ts'

const POLES = 100_000
const SPECIES = 12
/** Poles that the plain form is tried on, since it would take hours for all. */
const PLAIN_POLES = 6

/** The demo's poles one after the other until there are 100 000, each drawn and assessed by itself. */
export function benchPoleTops(feeders: readonly Feeder[]): void {
  const sites = feeders.flatMap((feeder) => poleSites(feeder, []))
  const sizes = birdSpecies()
    .slice(0, SPECIES)
    .map((species) => sizeOf(species))
  const site = (index: number) => sites[(index * STRIDE) % sites.length]
  const each = (run: (site: PoleSite) => void, poles: number): number => {
    const start = performance.now()
    for (let index = 0; index < poles; index++) {
      const at = site(index)
      if (at) run(at)
    }
    return (performance.now() - start) / poles
  }
  const fast = (at: PoleSite) => contactPairsOfSpecies(poleTopOf(at)?.parts ?? [], sizes)
  each(fast, 1000)
  const fastMs = each(fast, POLES)
  const wholeMs = each((at) => assessPole(at, []), POLES)
  const plainMs = each((at) => plainPairs(poleTopOf(at)?.parts ?? [], sizes), PLAIN_POLES)
  const row = (name: string, ms: number) => [
    name,
    inWords(ms * POLES),
    inWords(ms),
    String(Math.round(1000 / ms)),
    `1 : ${Number((plainMs / ms).toPrecision(3))}`,
  ]
  printTable(`Birds (${POLES} poles of the demo × ${SPECIES} species, one thread)`, [
    ['', 'all', 'per pole', 'poles/s', 'to plain'],
    row('drawn, with all pairs', fastMs),
    row('assessed as the desk does', wholeMs),
    row(`plain, from ${PLAIN_POLES} poles`, plainMs),
  ])
}

/** Without a common divisor with the number of poles, so that neighbours come far apart. */
const STRIDE = 7919

/** Every pair of parts for every species by a search within a search, and nothing passed over. */
function plainPairs(parts: readonly Part[], sizes: readonly BirdSize[]): number {
  let count = 0
  const electrodes = parts.filter(isElectrode)
  for (const size of sizes) {
    electrodes.forEach((a, index) => {
      for (const b of electrodes.slice(index + 1)) {
        if (a.potential !== b.potential && plainShare(a, b, size) < 1) count++
      }
    })
  }
  return count
}

function plainShare(a: Part, b: Part, { breadthM, heightM }: BirdSize): number {
  const at = (s: number, t: number) => {
    const [x, y, z] = ([0, 1, 2] as const).map(
      (axis) =>
        a.from[axis] +
        s * (a.to[axis] - a.from[axis]) -
        b.from[axis] -
        t * (b.to[axis] - b.from[axis]),
    ) as [number, number, number]
    const across = Math.max(0, Math.hypot(x, y) - a.radiusM - b.radiusM)
    return Math.max(Math.hypot(across, z) / breadthM, Math.abs(z) / heightM)
  }
  return least((s) => least((t) => at(s, t)))
}

/** Least value of a convex function on 0 to 1, by thirds. */
function least(valueAt: (share: number) => number): number {
  let [low, high] = [0, 1]
  for (let step = 0; step < 40; step++) {
    const third = (high - low) / 3
    if (valueAt(low + third) < valueAt(high - third)) high -= third
    else low += third
  }
  return valueAt((low + high) / 2)
}
