import type { Equipment } from '#domain/feeder/equipment.ts'
import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import type { Load } from '#domain/feeder/load.ts'
import { PHASES } from '#domain/units/phases.ts'
import { tapWords } from './format.ts'

/** What a piece of equipment is, in one line that a crew can hold against what it sees. */
export function equipmentInWords(item: Equipment): string {
  const name = item.name ? `${item.name}, ${item.id}` : item.id
  return `${kindInWords(item)} (${name}), ${phaseWords(item.phases)}${detail(item)}`
}

const FITTING_NAMES = {
  cutout: ['cutout', 'cutouts'],
  arrester: ['arrester', 'arresters'],
  riser: ['riser', 'risers'],
  meter: ['meter', 'meters'],
  guy: ['guy', 'guys'],
} as const

function kindInWords(item: Equipment): string {
  switch (item.kind) {
    case 'regulator':
      return `Voltage regulator bank${isBypassed(item) ? ', bypassed' : ''}`
    case 'transformer':
      return item.span === undefined ? 'Service transformer' : 'Series transformer'
    case 'capacitor':
      return 'Capacitor bank'
    case 'switch':
      return 'Switch'
    case 'recloser':
      return 'Recloser'
    case 'fuse':
      return 'Fuse'
    case 'solar':
      return 'Solar plant'
    case 'generator':
      return 'Generator'
    default:
      return `${item.count} ${FITTING_NAMES[item.kind][item.count === 1 ? 0 : 1]}`
  }
}

function detail(item: Equipment): string {
  switch (item.kind) {
    case 'regulator':
      return regulatorDetail(item)
    case 'transformer':
      return `, ${item.ratingKva} kVA, ${item.connection.replaceAll('-', ' ')}`
    case 'capacitor':
      return `, ${item.kvarA + item.kvarB + item.kvarC} kvar in all, recorded ${item.state}`
    case 'switch':
    case 'recloser':
    case 'fuse':
      return `, recorded ${item.state}${item.ratingA ? `, ${item.ratingA} A` : ''}`
    case 'solar':
    case 'generator':
      return `, ${item.ratedKw} kW; it can feed the line from its side`
    default:
      return ''
  }
}

type Bank = Extract<Equipment, { kind: 'regulator' }>

function regulatorDetail(item: Bank): string {
  const phases = PHASES.filter((phase) => item.phases.includes(phase))
  const size = item.ratingKva ? `, ${item.ratingKva} kVA a unit` : ''
  const taps = phases.map((phase) => `${phase} ${tapWords(item[`tap${phase}`])}`).join(', ')
  const serials = phases.flatMap((phase) => {
    const serial = item[`serial${phase}`]
    return serial === undefined ? [] : [`${serial} (${phase})`]
  })
  return [
    `${size}, type ${item.windingType}, ${item.connection}`,
    isBypassed(item) ? 'the line runs past it, and it holds no voltage' : '',
    `taps as recorded ${taps}`,
    item.neutralSide === 'switched' ? 'a switch between each unit and the neutral' : '',
    serials.length > 0 ? `serial numbers ${serials.join(', ')}` : '',
  ]
    .filter(Boolean)
    .join('; ')
}

/** "phases A, B and C". */
export function phaseWords(phases: string): string {
  const letters = [...phases]
  if (letters.length < 2) return `phase ${phases}`
  return `phases ${letters.slice(0, -1).join(', ')} and ${letters.at(-1)}`
}

/** "12 customers (irrigation)". Null for a load without customers, as a published test load is. */
export function customersInWords(load: Load): string | null {
  if (load.customers === 0) return null
  const many = load.customers === 1 ? '1 customer' : `${load.customers} customers`
  return `${many} (${load.customerClass})`
}
