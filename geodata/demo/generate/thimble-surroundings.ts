import { accessOf } from './access-ways.ts'
import {
  type HabitatPlan,
  habitatOf,
  type IncidentPlan,
  incidentsOf,
  type NestPlan,
  nestsOf,
} from './bird-records.ts'
import type { Service } from './customers.ts'
import type { FeederSurroundings } from './feeder-surroundings.ts'
import { type KeepOutPlan, keepOutsOf } from './keep-outs.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import { protectionsOf } from './protections.ts'
import type { Road } from './valley.ts'

const NESTS: readonly NestPlan[] = [
  { rule: 'osprey', km: 4.1, leftM: -260, status: 'in use', lastSeen: '2026-07-04' },
  { rule: 'swainsonsHawk', km: 11.2, leftM: 240, status: 'in use', lastSeen: '2026-06-09' },
  { rule: 'redTailedHawk', km: 14.4, leftM: 620, status: 'unknown', lastSeen: '2024-05-15' },
  { rule: 'baldEagle', km: 19.3, leftM: -900, status: 'in use', lastSeen: '2026-03-19' },
]

const HABITAT: readonly HabitatPlan[] = [
  {
    name: 'Wexaw cottonwoods',
    species: 'osprey, bald eagle',
    km: 4.0,
    leftM: -500,
    radiusM: 420,
    stretch: 2.2,
  },
  {
    name: 'Ninebark hay meadows',
    species: "Swainson's hawk",
    km: 11.8,
    leftM: -900,
    radiusM: 800,
    stretch: 2,
  },
]

export const THIMBLE_KEEP_OUTS: readonly KeepOutPlan[] = [
  {
    name: 'Candlewick slough reserve',
    reason: 'protected wetland; no ground may be broken and no vehicle taken in',
    km: 9.1,
    leftM: 40,
    shape: { kind: 'blob', radiusM: 260, stretch: 1.3 },
  },
  {
    name: 'Pellory town park',
    reason: 'deeded to the town on condition that nothing is built on it',
    km: 1.75,
    leftM: -45,
    shape: { kind: 'strip', alongM: 150, acrossM: 110 },
  },
  {
    name: 'Spinner bluff site',
    reason: 'recorded cultural site; no new ground disturbance without the review of its keepers',
    km: 12.3,
    leftM: 20,
    shape: { kind: 'blob', radiusM: 150, stretch: 1.2 },
  },
]

const INCIDENTS: readonly IncidentPlan[] = [
  {
    km: 4.2,
    leftM: 0,
    foundOn: '2025-08-12',
    species: 'osprey',
    cause: 'confirmed electrocution',
    note: 'nest stick across two phases',
    foundAt: '06:50',
    diedOn: '2025-08-12',
    finder: 'line crew 2',
    district: 'river district',
    outcome: 'dead',
    speciesCertainty: 'certain',
    age: 'adult',
    burnsOnHardware: 'both outer conductors at the pole',
    carcass: 'fresh',
    necropsy: 'asked for',
    poleAtEvent: 'beginning of a nest on the arm',
    hadOutage: true,
    deviceOperated: 'recloser, two shots',
    customersOut: 41,
    outageMin: 22,
    agency: 'state wildlife agency',
    agencyToldOn: '2025-08-12',
    agencyToldBy: 'environmental coordinator',
    recommended: 'platform on a pole of its own after the season, deterrent on this one',
    visitDueOn: '2025-08-26',
    visitedOn: '2025-08-12',
    fixDueOn: '2025-11-10',
    fixedOn: '2025-10-28',
    inspectionDueOn: '2025-11-27',
    inspectedOn: '2025-11-19',
    verifiedBy: 'line supervisor',
    isAtPole: true,
  },
  {
    km: 11.5,
    leftM: 0,
    foundOn: '2024-07-23',
    species: "Swainson's hawk",
    cause: 'probable electrocution',
    note: 'adult; found with a ground squirrel',
    finder: 'line crew 1, on patrol',
    district: 'meadow district',
    outcome: 'dead',
    speciesCertainty: 'certain',
    age: 'adult',
    carcass: 'decayed',
    necropsy: 'not asked for',
    hadOutage: false,
    agency: 'state wildlife agency',
    agencyToldOn: '2024-07-24',
    agencyToldBy: 'environmental coordinator',
    visitDueOn: '2024-08-06',
    visitedOn: '2024-07-23',
    fixDueOn: '2024-10-21',
    fixedOn: '2024-10-02',
    isAtPole: true,
  },
  {
    km: 17.2,
    leftM: 0,
    foundOn: '2023-11-18',
    species: 'common raven',
    cause: 'confirmed electrocution',
    note: 'fuse blown, twelve customers out for two hours',
    finder: 'line crew 2',
    district: 'meadow district',
    outcome: 'dead',
    speciesCertainty: 'certain',
    carcass: 'fresh',
    hadOutage: true,
    deviceOperated: 'lateral fuse',
    customersOut: 12,
    outageMin: 120,
    visitDueOn: '2023-12-02',
    visitedOn: '2023-11-18',
    fixDueOn: '2024-02-16',
    fixedOn: '2024-02-01',
    isAtPole: true,
  },
]

const PROTECTED_WITHIN_M = 1_300

export function thimbleSurroundings(roads: readonly Road[], services: readonly Service[]) {
  return (laid: LaidFeeder): FeederSurroundings => {
    const incidents = incidentsOf(laid, services, INCIDENTS)
    return {
      nests: nestsOf(laid, NESTS),
      habitat: habitatOf(laid, HABITAT),
      incidents,
      protections: protectionsOf(laid, services, NESTS, PROTECTED_WITHIN_M, incidents),
      access: accessOf(laid, roads),
      keepOuts: keepOutsOf(laid, THIMBLE_KEEP_OUTS),
    }
  }
}
