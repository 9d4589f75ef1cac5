import { PHASES, type Phase } from '#domain/units/phases.ts'
import type { Person } from '../api/actor.ts'
import { PERSONS } from '../api/actor.ts'

export type ShownPhase = 'worst' | Phase
export type Units = 'us' | 'metric'
export type TapRule = 'controlled' | 'fixed'
export type Paper = (typeof PAPERS)[number]

/** What the person looks at. It stands in the page address, so that a link or a reload brings it back. */
export interface Selection {
  readonly feeder: string | null
  /** Load case; null until the feeder is there to name its first. */
  readonly case: string | null
  readonly phase: ShownPhase
  readonly units: Units
  readonly person: Person
  readonly pole: string | null
  /** A kept proposal that is open. */
  readonly proposal: string | null
  /** A siting study whose result is open, and the rank of the proposal chosen in it. */
  readonly study: string | null
  readonly choice: string | null
  /** Poles to which the banks of the open proposal were moved by hand, with commas between. */
  readonly moved: string | null
  /** Part of the person's desk that stands open; each desk names its own. */
  readonly view: string | null
  /** What is laid out to be printed of the view. */
  readonly paper: Paper | null
  /** Whether regulators follow their controls or stay at the recorded positions. */
  readonly taps: TapRule
}

const SHOWN_PHASES = ['worst', ...PHASES] as const
const UNITS = ['us', 'metric'] as const
const TAP_RULES = ['controlled', 'fixed'] as const
const PAPERS = ['packet', 'labels'] as const

/** Reads the part of an address after "?". Unknown values fall back to the default, never to an error. */
export function selectionOfAddress(search: string): Selection {
  const given = new URLSearchParams(search)
  return {
    feeder: given.get('feeder'),
    case: given.get('case'),
    phase: oneOf(SHOWN_PHASES, given.get('phase')),
    units: oneOf(UNITS, given.get('units')),
    person: oneOf(PERSONS, given.get('person')),
    pole: given.get('pole'),
    proposal: given.get('proposal'),
    study: given.get('study'),
    choice: given.get('choice'),
    moved: given.get('moved'),
    view: given.get('view'),
    paper: PAPERS.find((paper) => paper === given.get('paper')) ?? null,
    taps: oneOf(TAP_RULES, given.get('taps')),
  }
}

/** Address of a selection; what stands at its default is left out, and members of others are kept. */
export function addressOfSelection(selection: Selection, search = ''): string {
  const written = new URLSearchParams(search)
  const plain = selectionOfAddress('')
  for (const key of Object.keys(plain) as (keyof Selection)[]) {
    const value = selection[key]
    if (value === null || value === plain[key]) written.delete(key)
    else written.set(key, value)
  }
  const text = written.toString()
  return text && `?${text}`
}

function oneOf<const Value extends string>(
  values: readonly [Value, ...Value[]],
  given: string | null,
): Value {
  return values.find((value) => value === given) ?? values[0]
}
