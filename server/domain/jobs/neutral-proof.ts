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

const NAMES: Partial<Readonly<Record<JudgeName, string>>> = {
  'position indicator at neutral': 'position indicator',
  'neutral lamp steady': 'neutral lamp',
  'control readout at neutral': 'readout of the control',
  'volts across at neutral': 'volts from source to load',
}

/** What to do where one sign says neutral and another does not; whatever moves may be the wrong thing. */
export const FIND_THE_WRONG_SIGN =
  'stop, tap nothing, leave the switches as they are, and find which is wrong.'

const originsOf = (signs: readonly NeutralSign[]) => [
  ...new Set(signs.flatMap(({ judge }) => SIGN_ORIGINS[judge] ?? [])),
]

/** At least two signs of different origin say neutral, and none says otherwise. */
export function neutralProof(signs: readonly NeutralSign[]): NeutralProof {
  const against = signs.filter(({ says }) => says === 'off neutral')
  const agreeing = signs.filter(({ says }) => says === 'neutral')
  const origins = originsOf(agreeing)
  const isProven = against.length === 0 && origins.length >= ORIGINS_NEEDED
  return { isProven, agreeing: origins, words: inWords(agreeing, against) }
}

function inWords(agreeing: readonly NeutralSign[], against: readonly NeutralSign[]): string {
  if (against.length > 0) {
    const says = `${named(against)} ${against.length > 1 ? 'say' : 'says'} off neutral`
    return agreeing.length > 0
      ? `Not proven: ${says}, against ${named(agreeing)}. Signs that disagree prove nothing: ${FIND_THE_WRONG_SIGN}`
      : `Not proven: ${says}. Close nothing.`
  }
  const origins = originsOf(agreeing)
  if (origins.length >= ORIGINS_NEEDED) return `Neutral is proven by ${named(agreeing)}.`
  if (agreeing.length === 0) return 'Not proven: no sign was read.'
  const once =
    origins[0] === 'control' ? ' Lamp and readout both come from the control and count once.' : ''
  const says = agreeing.length > 1 ? 'say' : 'says'
  return `Not proven: ${named(agreeing)} alone ${says} neutral, and two independent signs must agree.${once}`
}

function named(signs: readonly NeutralSign[]): string {
  const names = signs.flatMap(({ judge }) => NAMES[judge] ?? [])
  const [last = '', ...others] = names.toReversed()
  return others.length > 0 ? `${others.toReversed().join(', ')} and ${last}` : last
}

/** A meter shows whether a unit is one step off only if it resolves half a step: volts. */
export function finestNeededV(neutralV: number): number {
  return stepV(neutralV) / 2
}

/** Less between source and load bushing than one step would make, by half. */
export function isNearZero(acrossV: number, neutralV: number): boolean {
  return Math.abs(acrossV) < stepV(neutralV) / 2
}
