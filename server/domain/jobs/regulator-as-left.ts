import { type Phase, phaseMask, phasesOfMask } from '#domain/units/phases.ts'
import type { Regulator } from '../feeder/equipment.ts'
import type { AsLeft, SettingsAsLeft, UnitAsLeft } from './as-left.ts'

export interface RegulatorAsLeft {
  readonly regulator: Regulator
  /** What could not be taken over, in sentences. */
  readonly notes: readonly string[]
}

/**
 * The bank as the crew left it: taps, settings and, where units differ, the smallest rating. What the
 * crew did not record of taps and settings stays as planned and is said.
 *
 * @param work `new` where units were set, and so the bank is as old as the work and has no other
 * serial numbers than theirs; `switched` where nobody was to set the controls.
 */
export function regulatorAsLeft(
  planned: Regulator,
  { on, units, settings }: AsLeft,
  work: 'new' | 'set' | 'switched',
): RegulatorAsLeft {
  const phases = phasesOfMask(phaseMask(planned.phases))
  const notes: string[] = []
  const found = new Map<Phase, UnitAsLeft>()
  for (const unit of units) {
    if (!phases.includes(unit.phase)) {
      notes.push(
        `A unit on phase ${unit.phase} is recorded, but bank ${planned.id} has none there.`,
      )
    } else if (found.has(unit.phase)) {
      notes.push(`Two units are recorded on phase ${unit.phase}; the first one counts.`)
    } else found.set(unit.phase, unit)
  }
  for (const phase of phases) {
    if (!found.has(phase)) notes.push(`No unit is recorded on phase ${phase}; kept as planned.`)
  }
  const set = settings ? settingsOf(settings) : {}
  if (!settings && work !== 'switched')
    notes.push('No settings are recorded as left; those of the plan are kept.')
  const rating = ratingOf([...found.values()], notes)
  const isNew = work === 'new'
  const bare = isNew ? withoutSerials(planned) : planned
  const base = { ...bare, ...set, ...rating, ...(isNew && { installedYear: yearOf(on) }) }
  return {
    regulator: { ...base, ...serialsOf(found, notes), ...tapsOf(base, found, notes) },
    notes,
  }
}

function withoutSerials({ serialA: _a, serialB: _b, serialC: _c, ...bank }: Regulator): Regulator {
  return bank
}

/** As `Regulator` holds. */
const MOST_SERIAL_LETTERS = 60

/** Of the units on which one was read off. */
function serialsOf(units: ReadonlyMap<Phase, UnitAsLeft>, notes: string[]): Partial<Regulator> {
  const serials: Partial<Record<`serial${Phase}`, string>> = {}
  for (const [phase, { serialNumber }] of units) {
    const serial = serialNumber.trim()
    if (serial === '') continue
    if (serial.length > MOST_SERIAL_LETTERS) {
      notes.push(
        `The serial number on phase ${phase} is longer than ${MOST_SERIAL_LETTERS} letters; only those are kept.`,
      )
    }
    serials[`serial${phase}`] = serial.slice(0, MOST_SERIAL_LETTERS).trim()
  }
  return serials
}

/** What a control is set to, and nothing else of a bank. */
export function settingsOf(settings: SettingsAsLeft): SettingsAsLeft {
  const { bandCentreV, bandwidthV, delayS, rV, xV, ptRatio, ctPrimaryA } = settings
  const { maxRaise, maxLower } = settings
  return { bandCentreV, bandwidthV, delayS, rV, xV, ptRatio, ctPrimaryA, maxRaise, maxLower }
}

/** A bank has one rating; where its units differ the smallest governs. */
function ratingOf(units: readonly UnitAsLeft[], notes: string[]): Partial<Regulator> {
  const ratingKva = smallest(
    'rating',
    'kVA',
    units.map((unit) => unit.ratingKva),
    notes,
  )
  const ratingA = smallest(
    'rated current',
    'A',
    units.map((unit) => unit.ratingA),
    notes,
  )
  return {
    ...(ratingKva !== undefined && { ratingKva }),
    ...(ratingA !== undefined && { ratingA }),
  }
}

function smallest(
  what: string,
  unit: string,
  values: readonly (number | undefined)[],
  notes: string[],
): number | undefined {
  const known = values.filter((value) => value !== undefined)
  if (known.length === 0) return undefined
  const least = Math.min(...known)
  if (known.some((value) => value !== least)) {
    notes.push(`The units differ in their ${what}; the smallest, ${least} ${unit}, is kept.`)
  }
  return least
}

function tapsOf(
  bank: Regulator,
  units: ReadonlyMap<Phase, UnitAsLeft>,
  notes: string[],
): Partial<Regulator> {
  const { maxLower, maxRaise } = bank
  const taps: Partial<Record<`tap${Phase}`, number>> = {}
  for (const [phase, { tapLeft }] of units) {
    if (tapLeft === undefined) {
      notes.push(`The position on phase ${phase} is not recorded; ${bank[`tap${phase}`]} is kept.`)
      continue
    }
    if (tapLeft > maxRaise || tapLeft < -maxLower) {
      notes.push(
        `Position ${tapLeft} on phase ${phase} lies beyond the limits of ${maxRaise} raise and ${maxLower} lower.`,
      )
    }
    taps[`tap${phase}`] = tapLeft
  }
  return taps
}

function yearOf(date: string): number {
  return Number(date.slice(0, 4))
}
