import { accessOf } from './access-ways.ts'
import {
  type HabitatPlan,
  habitatOf,
  type IncidentPlan,
  incidentsOf,
  type NestPlan,
  nestsOf,
  protectionsOf,
} from './bird-records.ts'
import type { Service } from './customers.ts'
import type { FeederSurroundings } from './feeder-surroundings.ts'
import { type KeepOutPlan, keepOutsOf } from './keep-outs.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import type { Road } from './valley.ts'

const NESTS: readonly NestPlan[] = [
  { rule: 'goldenEagle', km: 26.2, leftM: -520, status: 'in use', lastSeen: '2026-06-11' },
  { rule: 'goldenEagle', km: 18.6, leftM: -430, status: 'in use', lastSeen: '2026-05-28' },
  { rule: 'redTailedHawk', km: 7.2, leftM: 260, status: 'in use', lastSeen: '2026-06-02' },
  { rule: 'baldEagle', km: 13.9, leftM: 1_350, status: 'in use', lastSeen: '2026-03-19' },
  { rule: 'ferruginousHawk', km: 32.8, leftM: -310, status: 'in use', lastSeen: '2025-06-17' },
  { rule: 'swainsonsHawk', km: 29.4, leftM: 720, status: 'not in use', lastSeen: '2023-05-30' },
  { rule: 'goldenEagle', km: 36.4, leftM: -900, status: 'unknown', lastSeen: '2022-04-21' },
]

const HABITAT: readonly HabitatPlan[] = [
  {
    name: 'Kettlebow prairie-dog town',
    species: 'golden eagle, ferruginous hawk',
    km: 19.6,
    leftM: -700,
    radiusM: 620,
    stretch: 1.6,
  },
  {
    name: 'Upper basin sage flats',
    species: 'golden eagle',
    km: 27.5,
    leftM: -1_500,
    radiusM: 1_500,
    stretch: 1.8,
  },
  {
    name: 'Fork cottonwoods',
    species: "Swainson's hawk, great horned owl",
    km: 30.0,
    leftM: 2_100,
    radiusM: 520,
    stretch: 2.2,
  },
  {
    name: 'Wexaw winter roost',
    species: 'bald eagle',
    km: 13.4,
    leftM: 1_500,
    radiusM: 450,
    stretch: 2.0,
  },
]

export const SKILLET_KEEP_OUTS: readonly KeepOutPlan[] = [
  {
    name: 'Sedge Hollow wetland reserve',
    reason: 'protected wetland; no ground may be broken and no vehicle taken in',
    km: 23.75,
    leftM: 60,
    shape: { kind: 'blob', radiusM: 360, stretch: 1.3 },
  },
  {
    name: 'Brindlemark airstrip, south approach',
    reason: 'clear zone of the airstrip; nothing may be added to the height of the line',
    km: 28.9,
    leftM: -330,
    shape: { kind: 'strip', alongM: 640, acrossM: 900 },
  },
  {
    name: 'Ring-stones site',
    reason: 'recorded cultural site; no new ground disturbance without the review of its keepers',
    km: 21.4,
    leftM: -40,
    shape: { kind: 'blob', radiusM: 190, stretch: 1.2 },
  },
  {
    name: 'Pellory cemetery',
    reason: 'burial ground',
    km: 1.15,
    leftM: -70,
    shape: { kind: 'strip', alongM: 170, acrossM: 130 },
  },
]

const INCIDENTS: readonly IncidentPlan[] = [
  {
    km: 26.6,
    leftM: 0,
    foundOn: '2024-03-14',
    species: 'golden eagle',
    cause: 'confirmed electrocution',
    note: 'subadult; burn on left wrist; transformer had no bushing cover',
    isAtPole: true,
  },
  {
    km: 19.0,
    leftM: 0,
    foundOn: '2025-09-02',
    species: 'golden eagle',
    cause: 'probable electrocution',
    note: 'remains only; scorched feathers under the pole',
    isAtPole: true,
  },
  {
    km: 7.5,
    leftM: 0,
    foundOn: '2025-06-21',
    species: 'red-tailed hawk',
    cause: 'confirmed electrocution',
    note: 'fledgling; between cutout and bracket',
    isAtPole: true,
  },
  {
    km: 32.3,
    leftM: 0,
    foundOn: '2023-07-09',
    species: 'ferruginous hawk',
    cause: 'probable electrocution',
    note: 'found by the meter reader',
    isAtPole: true,
  },
  {
    km: 14.3,
    leftM: 900,
    foundOn: '2024-12-05',
    species: 'bald eagle',
    cause: 'collision',
    note: 'mid-span near the creek',
    isAtPole: false,
  },
  {
    km: 35.9,
    leftM: -60,
    foundOn: '2022-10-30',
    species: 'great horned owl',
    cause: 'unknown',
    note: 'too old to tell',
    isAtPole: false,
  },
]

const PROTECTED_WITHIN_M = 1_900

export function skilletSurroundings(roads: readonly Road[], services: readonly Service[]) {
  return (laid: LaidFeeder): FeederSurroundings => ({
    nests: nestsOf(laid, NESTS),
    habitat: habitatOf(laid, HABITAT),
    incidents: incidentsOf(laid, services, INCIDENTS),
    protections: protectionsOf(laid, services, NESTS, PROTECTED_WITHIN_M),
    access: accessOf(laid, roads),
    keepOuts: keepOutsOf(laid, SKILLET_KEEP_OUTS),
  })
}
