import type { Phase, PhaseSet } from '#domain/units/phases.ts'
import type { BranchPlan } from './branch-plan.ts'
import { isInside } from './crossing.ts'
import { CUSTOMER_CLASSES, type CustomerClassName } from './customer-classes.ts'
import type { LoadDraft, TransformerDraft } from './feeder-draft.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import type { LaidBranch, LaidPole } from './lay-line.ts'
import { type Line, roundTo } from './plane.ts'
import { type SeededRandom, seededRandom } from './seeded-random.ts'
import { SEED } from './valley.ts'

/** One service: a transformer on a pole and what it feeds. */
export interface Service {
  readonly pole: LaidPole
  readonly customerClass: CustomerClassName
  readonly kw: number
  readonly powerFactor: number
  readonly customers: number
  readonly phases: PhaseSet
  readonly name?: string
}

/** Single-phase taps of a three-phase line are spread unevenly, as they grow in the field. */
const PHASE_DRAW: readonly Phase[] = ['A', 'A', 'A', 'B', 'B', 'B', 'C', 'C', 'C', 'C']

/** Nobody lives or pumps inside the rings of `emptyLand`. */
export function servicesOf(feeder: LaidFeeder, emptyLand: readonly Line[]): Service[] {
  return feeder.branches.flatMap((branch) =>
    servicesOfBranch(
      branch,
      emptyLand,
      seededRandom(SEED, `${feeder.id} customers ${branch.plan.series}`),
    ),
  )
}

function servicesOfBranch(
  { plan, poles }: LaidBranch,
  emptyLand: readonly Line[],
  random: SeededRandom,
): Service[] {
  const settled = poles.filter(({ at }) => !emptyLand.some((ring) => isInside(ring, at)))
  const places = placesOn(settled, plan, random)
  const { customers } = plan
  const services: Service[] = []
  const one = (
    wish: number,
    customerClass: CustomerClassName,
    kw: number,
    count: number,
    more: Partial<Pick<Service, 'name' | 'powerFactor'>> = {},
  ): void => {
    const pole = places.take(wish)
    if (!pole) return
    const isLarge = plan.phases === 'ABC' && (kw >= 22 || customerClass === 'irrigation')
    services.push({
      pole,
      customerClass,
      kw: roundTo(kw, 1),
      customers: count,
      powerFactor: more.powerFactor ?? CUSTOMER_CLASSES[customerClass].powerFactor,
      phases: isLarge ? 'ABC' : onePhaseOf(plan.phases, random),
      ...(more.name && { name: more.name }),
    })
  }
  for (const special of customers.special ?? []) {
    one(special.at, special.customerClass, special.kw, 1, special)
  }
  const pumps = customers.pumpsKw ?? []
  pumps.forEach((kw, i) => {
    one(1 - (i * 0.75) / pumps.length, 'irrigation', kw, 1)
  })
  for (let i = 0; i < (customers.ranches ?? 0); i++) {
    one(i === 0 ? 1 : random.between(0.25, 1), 'ranch', random.between(9, 19), 1)
  }
  for (let i = 0; i < (customers.shops ?? 0); i++) {
    const share = plan.series === '' ? random.between(0.015, 0.1) : random.next()
    one(share, 'commercial', random.between(5, 32), 1)
  }
  for (const group of homeGroups(customers, random)) {
    one(homeShare(plan, random), 'residential', group * random.between(2.1, 3.9), group)
  }
  for (let i = 0; i < (customers.stockWells ?? 0); i++) {
    one(random.between(0.2, 1), 'stock-well', random.between(1.2, 2.6), 1)
  }
  return services
}

/** Homes thin out along the trunk and lie anywhere on a lateral. */
function homeShare(plan: BranchPlan, random: SeededRandom): number {
  return plan.series === '' ? random.next() ** 1.15 : random.next()
}

function homeGroups(customers: BranchPlan['customers'], random: SeededRandom): number[] {
  const most = customers.homesPerTransformer ?? 1
  const groups: number[] = []
  for (let left = customers.homes ?? 0; left > 0; ) {
    const group = Math.min(
      left,
      most === 1 ? (random.chance(0.18) ? 2 : 1) : random.whole(most - 2, most + 1),
    )
    groups.push(group)
    left -= group
  }
  return groups
}

function onePhaseOf(phases: PhaseSet, random: SeededRandom): Phase {
  return random.pick(PHASE_DRAW.filter((phase) => phases.includes(phase)))
}

/** Hands out each pole once: the free one nearest to the share of the length asked for. */
function placesOn(poles: readonly LaidPole[], plan: BranchPlan, random: SeededRandom) {
  const free = poles.slice(plan.series === '' ? 2 : 1, plan.isTie ? -2 : undefined)
  const lengthM = poles.at(-1)?.alongM ?? 0
  const shiftM = () => random.between(-30, 30)
  const take = (share: number): LaidPole | undefined => {
    const wanted = share * lengthM + (share === 1 ? 0 : shiftM())
    const [nearest] = [...free].sort(
      (a, b) => Math.abs(a.alongM - wanted) - Math.abs(b.alongM - wanted),
    )
    if (nearest) free.splice(free.indexOf(nearest), 1)
    return nearest
  }
  return { take }
}

export function loadOf(service: Service): LoadDraft {
  const { powerFactor, kw, phases } = service
  const { constantPower, constantCurrent, constantImpedance, loadFactor } =
    CUSTOMER_CLASSES[service.customerClass]
  const kvar = kw * Math.tan(Math.acos(powerFactor))
  return {
    id: `load-${service.pole.id}`,
    pole: service.pole.id,
    ...(service.customerClass === 'irrigation'
      ? deltaThirds(kw, kvar)
      : wyeShares(phases, kw, kvar)),
    constantPower,
    constantCurrent,
    constantImpedance,
    customers: service.customers,
    customerClass: service.customerClass,
    energyKwhPerYear: Math.round((kw * loadFactor * 8_760) / 100) * 100,
    ...(service.name && { name: service.name }),
  }
}

function wyeShares(phases: PhaseSet, kw: number, kvar: number): Partial<LoadDraft> {
  const eachKw = roundTo(kw / phases.length, 2)
  const eachKvar = roundTo(kvar / phases.length, 2)
  return {
    ...(phases.includes('A') && { kwA: eachKw, kvarA: eachKvar }),
    ...(phases.includes('B') && { kwB: eachKw, kvarB: eachKvar }),
    ...(phases.includes('C') && { kwC: eachKw, kvarC: eachKvar }),
  }
}

function deltaThirds(kw: number, kvar: number): Partial<LoadDraft> {
  const eachKw = roundTo(kw / 3, 2)
  const eachKvar = roundTo(kvar / 3, 2)
  return {
    connection: 'delta',
    kwAb: eachKw,
    kwBc: eachKw,
    kwCa: eachKw,
    kvarAb: eachKvar,
    kvarBc: eachKvar,
    kvarCa: eachKvar,
  }
}

const SINGLE_KVA = [10, 15, 25, 37.5, 50, 75, 100] as const
const BANK_KVA = [30, 45, 75, 112.5, 150, 225, 300, 500, 750] as const

/** Next standard size above the peak with a tenth to spare. */
export function serviceTransformerOf(service: Service, installedYear: number): TransformerDraft {
  const neededKva = (service.kw / service.powerFactor) * 1.1
  const isBank = service.phases === 'ABC'
  const sizes: readonly number[] = isBank ? BANK_KVA : SINGLE_KVA
  const ratingKva = sizes.find((size) => size >= neededKva)
  if (ratingKva === undefined) throw new Error(`No standard transformer carries ${neededKva} kVA.`)
  return {
    id: `transformer-${service.pole.id}`,
    pole: service.pole.id,
    kind: 'transformer',
    phases: service.phases,
    ratingKva,
    connection: isBank ? 'grounded-wye-grounded-wye' : 'single-phase',
    installedYear,
  }
}
