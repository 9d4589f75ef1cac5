import { REGULATOR_MAX_TAP } from '#domain/feeder/equipment.ts'
import {
  acrossInWords,
  bypassOffNeutral,
  loopAmpsInWords,
  stepV,
} from '#domain/jobs/bypass-current.ts'
import type { ReadValue } from '#domain/jobs/job-entry.ts'
import type { Verdict } from '#domain/jobs/judge-reading.ts'
import { SIGN_ORIGINS } from '#domain/jobs/neutral-proof.ts'
import { voltsOf } from '#domain/jobs/read-at.ts'
import type { Asked, Step } from '#domain/jobs/step-sequence.ts'
import { counted } from '../../state/format.ts'

/** What the signs of neutral that are entered say together, proven or not. */
export type SignsSay = 'nothing' | 'neutral' | 'off neutral' | 'not the same'

export function signsSay({ asks }: Step, verdicts: readonly Verdict[]): SignsSay {
  const signs = verdicts.filter(({ askId }) => isSign(asks.find(({ id }) => id === askId)))
  const off = signs.filter(({ verdict }) => verdict === 'bad').length
  if (signs.length === 0) return 'nothing'
  if (off === 0) return 'neutral'
  return off === signs.length ? 'off neutral' : 'not the same'
}

function isSign(asked: Asked | undefined): boolean {
  return asked?.judge !== undefined && SIGN_ORIGINS[asked.judge] !== undefined
}

/**
 * Furthest from neutral of the positions that were read and of the volts across the unit, in steps
 * to either side; null where neither was read as a number.
 *
 * @param neutralV volts from phase to neutral
 */
export function stepsOffNeutral(
  { asks }: Step,
  values: Readonly<Record<string, ReadValue>>,
  neutralV: number,
): number | null {
  const read = asks.flatMap((asked) => {
    const value = values[asked.id]
    if (typeof value !== 'number') return []
    switch (asked.judge) {
      case 'position indicator at neutral':
      case 'control readout at neutral':
        return [Math.abs(value)]
      case 'volts across at neutral':
        return [Math.abs(voltsOf(value, asked)) / stepV(neutralV)]
      default:
        return []
    }
  })
  return read.length === 0 ? null : Math.max(...read)
}

/**
 * What a bypass closed so far off neutral would do.
 *
 * @param loopOhm of the loop that it closes; null where that is not known
 */
export function acrossBypassInWords(
  steps: number,
  neutralV: number,
  loopOhm: number | null,
): string {
  const { volts, amps } = bypassOffNeutral(neutralV, steps, loopOhm ?? 1)
  const flow =
    loopOhm === null ? '' : `; ${loopOhm} Ω would let about ${loopAmpsInWords(amps)} flow`
  const across = `${acrossInWords(volts)} would stand across it${flow}.`
  if (steps > REGULATOR_MAX_TAP) return across
  // Volts are no whole number of steps, nor are they read to one.
  const about = Number.isInteger(steps) ? '' : 'About '
  return `${about}${counted(Math.max(1, Math.round(steps)), 'step')} off neutral, ${across}`
}
