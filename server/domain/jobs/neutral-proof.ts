import { stepV } from './bypass-current.ts'
import type { JudgeName } from './step-sequence.ts'

/**
 * What a sign comes from. Signs of one origin are wrong together: lamp and readout both come by way
 * of the control, its supply and its cable, so they count once. The indicator hangs on the shaft of
 * the tap changer, and volts across are measured on the line. Common practice, no source.
 */
export type SignOrigin = 'tap changer' | 'control' | 'line'

/** Signs that must agree: common practice, no source. */
export const ORIGINS_NEEDED = 2

export const SIGN_ORIGINS: Partial<Readonly<Record<JudgeName, SignOrigin>>> = {
  'position indicator at neutral': 'tap changer',
  'neutral lamp steady': 'control',
  'control readout at neutral': 'control',
  'volts across at neutral': 'line',
}

/** One sign as it was read; what says neither is left out. */
export interface NeutralSign {
  readonly judge: JudgeName
  readonly says: 'neutral' | 'off neutral'
}

export interface NeutralProof {
  readonly isProven: boolean
  readonly agreeing: readonly SignOrigin[]
  readonly words: string
}

const NAMES: Readonly<Record<SignOrigin, string>> = {
  'tap changer': 'position indicator',
  control: 'lamp or readout of the control',
  line: 'volts from source to load',
}

const originsOf = (signs: readonly NeutralSign[]) => [
  ...new Set(signs.flatMap(({ judge }) => SIGN_ORIGINS[judge] ?? [])),
]

/** At least two signs of different origin say neutral, and none says otherwise. */
export function neutralProof(signs: readonly NeutralSign[]): NeutralProof {
  const against = originsOf(signs.filter(({ says }) => says === 'off neutral'))
  const agreeing = originsOf(signs.filter(({ says }) => says === 'neutral'))
  const isProven = against.length === 0 && agreeing.length >= ORIGINS_NEEDED
  return { isProven, agreeing, words: inWords(agreeing, against) }
}

function inWords(agreeing: readonly SignOrigin[], against: readonly SignOrigin[]): string {
  const names = (origins: readonly SignOrigin[]) => origins.map((each) => NAMES[each]).join(', ')
  if (against.length > 0) {
    const others = agreeing.length > 0 ? `, against ${names(agreeing)}` : ''
    return `Not proven: ${names(against)} says off neutral${others}. Signs that disagree prove nothing; find out which is wrong before anything is closed.`
  }
  if (agreeing.length >= ORIGINS_NEEDED) return `Neutral is proven by ${names(agreeing)}.`
  if (agreeing.length === 0) return 'Not proven: no sign was read.'
  const once =
    agreeing[0] === 'control' ? ' Lamp and readout both come from the control and count once.' : ''
  return `Not proven: ${names(agreeing)} alone says neutral, and two independent signs must agree.${once}`
}

/** A meter shows whether a unit is one step off only if it resolves half a step: volts. */
export function finestNeededV(neutralV: number): number {
  return stepV(neutralV) / 2
}

/** Less between source and load bushing than one step would make, by half. */
export function isNearZero(acrossV: number, neutralV: number): boolean {
  return Math.abs(acrossV) < stepV(neutralV) / 2
}
